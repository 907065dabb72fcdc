import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { fairlath, freshFolder } from '../cli/run.ts';
import type { OpenPage } from './browser.ts';
import { downloaded, rested } from './on-page.ts';

/** What makes each paper on the command line, by how its name ends on the page; the offsets are told, not written. */
const COMMANDS: readonly (readonly [label: string, ending: string, command: readonly string[]])[] = [
  ['The pattern, full size (PDF)', '.pdf', ['print', '-o']],
  ['The card for the shop wall (PDF)', '-card.pdf', ['card', '-o']],
  ['The batten and its nails (SVG)', '-strip.svg', ['batten', '--picture']],
  ['The board on the saw (SVG)', '-saw.svg', ['saw', '--picture']],
  ['The board layout (SVG)', '-board.svg', ['stock', '--picture']],
  ['The offsets (CSV)', '-offsets.csv', ['offsets', '--csv']],
  ['A picture with the curvature (SVG)', '-picture.svg', ['show', '--picture']],
  ['The whole part for a machine (DXF)', '.dxf', ['draw', '-o']],
  ['The whole part for a machine (SVG)', '.svg', ['draw', '-o']],
];

async function lay(page: Page, text: string): Promise<void> {
  await page.evaluate(`(() => {
    const field = document.getElementById('job-text');
    field.value = ${JSON.stringify(text)};
    field.dispatchEvent(new Event('input'));
  })()`);
  await rested(page);
}

interface Told {
  readonly label: string;
  readonly value: string;
}

/** The figures as the page tells them, in the command line's signs. */
async function figuresOf(page: Page): Promise<Told[]> {
  const told = (await page.evaluate(`[...document.querySelectorAll('.figure')].map((row) => ({
    label: row.querySelector('dt').textContent, value: row.querySelector('dd').textContent }))`)) as Told[];
  return told.map(({ label, value }) => ({
    label,
    value: value.replaceAll('\u00a0', ' ').replaceAll('\u2044', '/').replaceAll('\u2033', '"'),
  }));
}

const all = (text: string, pattern: RegExp): (string | undefined)[] =>
  [...text.matchAll(pattern)].map(([, found]) => found);

function compare(told: readonly Told[], job: string): void {
  const values = (label: RegExp): string[] =>
    told.filter((figure) => label.test(figure.label)).map(({ value }) => value);
  const show = fairlath(['show', job]).out;
  const curves = show
    .split(/\n(?= {2}\S)/)
    .filter((run) => /^ {2}(arc|batten|bow|ellipse|spline)\b/.test(run))
    .join('\n');
  expect(values(/\bapex$/)).toEqual(all(curves, /apex +(.*?); rise/g));
  expect(values(/\brise above its chord$/)).toEqual(all(curves, /; rise (.*) above its chord/g));
  expect(values(/radius$/)).toEqual(all(curves, /(?:tightest +radius|radius) +(.*)/g));
  if (curves) expect(values(/\blength of the \w+$/)).toEqual(all(curves, /\n +length +(.*)/g));
  const curved = told
    .map(({ label }) => label)
    .filter((label) => /apex$|chord$|radius$|length of/.test(label));
  expect(new Set(curved).size, 'each curve has a name of its own').toBe(curved.length);
  expect(values(/^least width$/)).toEqual(all(show, /\nleast width +(.*)/g));
  const names = all(show, /^(\S.*): .* along the edge$/gm);
  for (const { label, value } of told) if (names.includes(label)) expect(show).toContain(`\n  ${value}\n`);

  const stock = fairlath(['stock', job]);
  const [blank] = values(/^blank/);
  expect(stock.out).toContain(`cut the blank to ${blank!.replace(/ mm ×/g, ' ×')}.`);
  for (const grain of values(/^grain runout/)) {
    const [, angle, station] = /^(\S+) at station ([^\s:]+)/.exec(grain)!;
    expect(stock.out).toMatch(new RegExp(`runout ${angle} at worst, on ".*" at station ${station}`));
    expect(grain.includes('short grain')).toBe(stock.out.includes('. Short grain'));
  }
  for (const volume of values(/^buy for/)) expect(stock.out).toContain(volume.split(' of ')[0]);
  for (const weight of values(/^weighs/))
    expect(stock.out).toContain(`a finished part weighs about ${weight}, `);
  expect(values(/^caution$/)).toEqual(all(stock.err, /^warning: (.*)$/gm));

  const batten = fairlath(['batten', job]).out;
  for (const strip of values(/^strain/)) {
    const tooTight = /^too tight for any batten of (.*)$/.exec(strip);
    if (tooTight) {
      expect(batten.toLowerCase()).toContain(`no batten of ${tooTight[1]} can take the bend`.toLowerCase());
      continue;
    }
    const [, strain, wood, thick, safe] = /^(.*?) in (.*), (.*) thick: .* \(up to (.*)\)$/.exec(strip)!;
    expect(batten.toLowerCase()).toContain(`${wood}, ${thick} thick`.toLowerCase());
    expect(batten).toContain(`Strain ${strain} at station `);
    expect(batten).toContain(`The limit is ${safe}.`);
  }
}

/** The paper, or nothing where the page says why it cannot be made. */
async function taken(page: Page, label: string): Promise<{ name: string; bytes: Buffer } | undefined> {
  await page.evaluate("document.getElementById('file-said').textContent = ''");
  const refused = page.locator('#file-said', { hasText: 'The page cannot make this file' });
  return await Promise.race([
    downloaded(page, () => page.getByRole('button', { name: label }).click()),
    refused.waitFor().then(() => undefined),
  ]);
}

/** The page and the commands tell the same figures, and make the same papers of the job. */
export async function compareAll(openPage: OpenPage, name: string, text: string): Promise<void> {
  const { page, complaints } = await openPage();
  await lay(page, text);
  const job = join(freshFolder(), 'job.yaml');
  writeFileSync(job, text);
  compare(await figuresOf(page), job);
  for (const [label, ending, [command, ...options]] of COMMANDS) {
    const paper = await taken(page, label);
    const file = join(freshFolder(), `paper${ending}`);
    const isTold = ending.endsWith('.csv');
    const { code, out, err } = fairlath([command!, job, ...options, ...(isTold ? [] : [file])]);
    expect(code, `${name}, ${label}: ${err}`).toBe(paper ? 0 : 2);
    if (!paper) continue;
    expect(paper.name.endsWith(ending)).toBe(true);
    const wrote = isTold ? Buffer.from(out) : readFileSync(file);
    expect(paper.bytes.equals(wrote), label).toBe(true);
  }
  expect(complaints).toEqual([]);
}
