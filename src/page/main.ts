import './page.css';
import { SAMPLES } from 'built-in:samples';
import type { Box } from '../curves/curve.ts';
import { nameAfter } from '../export/file-name.ts';
import { STARTER_JOB } from '../job/starter.ts';
import { ApexNotes } from './apex-notes.ts';
import { Bench } from './bench.ts';
import { Beside } from './beside.ts';
import { byId, el, write } from './dom.ts';
import { Drag } from './drag.ts';
import { Drawing } from './drawing.ts';
import { FigureList } from './figure-list.ts';
import { quickFigures, slowFigures } from './figures.ts';
import { type FileHandle, openText, saveText, textOf } from './files.ts';
import { setType } from './font.ts';
import { Handles } from './handles.ts';
import { forgetBefore, keep, takeOver } from './keep.ts';
import { lightSwitch } from './light.ts';
import { Measured } from './measured.ts';
import { Places } from './places.ts';
import { RuleLayer } from './rule-layer.ts';
import { SetOut } from './set-out.ts';
import { Sheets } from './sheets.ts';
import { Stage } from './stage.ts';
import { Takeaway } from './takeaway.ts';
import { TextPanel } from './text-panel.ts';

const first = SAMPLES[0]?.text ?? STARTER_JOB;
const before = takeOver();
const bench = new Bench(first);
const stage = new Stage(byId('drawing'), bench.made!.part.bounds);
const rules = new RuleLayer(stage, bench);
const drawing = new Drawing(stage, bench);
const handles = new Handles(stage, bench, rules);
const places = new Places(stage, bench);
const sheets = new Sheets(stage, bench, () => showFigures());
const quick = new FigureList(byId('figures-now'), places);
const slow = new FigureList(byId('figures-later'), places);
new ApexNotes(stage, bench);
new Drag(stage, bench, handles);
new SetOut(byId('points'), bench, handles);
new TextPanel(bench, places);
new Beside(stage, bench, places);
new Measured(stage, bench, places);
new Takeaway(bench, sheets);

/** The file that the job came from, where the browser lets us write back to it. */
let file: { handle?: FileHandle; name?: string } = {};

function showFigures(): void {
  const { made, isTrue } = bench;
  if (!made) return;
  const { part } = made;
  write(byId('name'), part.name);
  document.title = `${part.name} – fairlath`;
  const figures = quickFigures(made, bench);
  quick.show([
    ...figures,
    {
      id: 'sheets',
      label: 'sheets',
      value: sheets.count,
    },
  ]);
  byId('figures-now').classList.toggle('old', !isTrue);
  byId('figures-now').lastElementChild?.classList.toggle('old', !sheets.isTrue);
}

function steps(): void {
  byId<HTMLButtonElement>('back').disabled = !bench.canGoBack;
  byId<HTMLButtonElement>('forward').disabled = !bench.canGoForward;
}

function changed(): void {
  showFigures();
  steps();
  byId('figures-later').classList.add('old');
}

function rested(): void {
  const { made, isTrue, length, bare } = bench;
  if (!made) return;
  if (isTrue) slow.show(slowFigures(made.part, bench));
  byId('figures-later').classList.toggle('old', !isTrue);
  keep(bench.text);
  const apexes = made.figures.flat().flatMap(({ apex }) => apex ?? []);
  const said = apexes.map(({ at, rise }) => `apex at ${bare(at.x)}, rise ${length(rise)}`);
  write(byId('spoken'), isTrue ? [...said, sheets.count].join('; ') : bench.faults[0]!.message(length));
}

/** Another job on the bench: drawn whole, its steps begin anew. */
function start(text: string, from: typeof file = {}): void {
  file = from;
  slow.show([]);
  sheets.forget();
  bench.start(text);
  const { made } = bench;
  if (made) {
    layOutPage(made.part.bounds);
    stage.fit(made.part.bounds);
  }
  rules.draw();
  showUnit();
}

/** A long part has its notes below it, a stout one beside it. */
const LONG = 2.2;

function layOutPage({ left, right, bottom, top }: Box): void {
  const aspect = (right - left) / Math.max(top - bottom, 1);
  document.body.classList.toggle('long', aspect > LONG);
  document.body.style.setProperty('--aspect', aspect.toFixed(2));
}

function showUnit(): void {
  for (const radio of document.querySelectorAll<HTMLInputElement>('input[name="unit"]'))
    radio.checked = radio.value === bench.rule.unit;
}

function offerBefore(): void {
  if (before === undefined || before === bench.text) return;
  byId('kept').hidden = false;
  const close = (): void => {
    byId('kept').hidden = true;
    forgetBefore();
  };
  byId('kept-take').addEventListener('click', () => {
    close();
    start(before);
  });
  byId('kept-leave').addEventListener('click', close);
}

async function save(): Promise<void> {
  const { made } = bench;
  const name = file.name ?? nameAfter(made?.part.name ?? 'job', '.yaml');
  const saved = await saveText(bench.text, name, file.handle);
  if (saved === undefined) return;
  if (saved !== 'downloaded') file = { handle: saved, name: saved.name };
  write(byId('spoken'), `${name} is saved`);
}

async function open(): Promise<void> {
  const opened = await openText('.yaml,.yml');
  if (opened) start(opened.text, opened);
}

function jobs(): void {
  const choice = byId<HTMLSelectElement>('samples');
  const all = [...SAMPLES, { name: 'A new part, with every key explained', text: STARTER_JOB }];
  choice.append(...all.map(({ name }, i) => el('option', { value: String(i) }, name)));
  choice.addEventListener('change', () => {
    const chosen = all[Number(choice.value)];
    if (choice.value !== '' && chosen) start(chosen.text);
    choice.value = '';
  });
  byId('open').addEventListener('click', open);
  byId('save').addEventListener('click', save);
  // A job file may simply be let fall on the page.
  window.addEventListener('dragover', (event) => event.preventDefault());
  window.addEventListener('drop', async (event) => {
    event.preventDefault();
    const [dropped] = event.dataTransfer?.files ?? [];
    if (dropped) start(await textOf(dropped), { name: dropped.name });
  });
}

function keys(event: KeyboardEvent): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  // In a field of one line the browser's own undo is meant.
  const isField = event.target instanceof HTMLInputElement && event.target.type === 'text';
  const key = event.key.toLowerCase();
  const action =
    key === 's'
      ? save
      : key === 'o'
        ? open
        : key === 'y' || (key === 'z' && event.shiftKey)
          ? () => bench.forward()
          : key === 'z'
            ? () => bench.back()
            : undefined;
  if (!action || (isField && (key === 'z' || key === 'y'))) return;
  event.preventDefault();
  void action();
}

function looking(): void {
  byId('nearer').addEventListener('click', () => stage.zoom(1.5));
  byId('farther').addEventListener('click', () => stage.zoom(1 / 1.5));
  byId('whole').addEventListener('click', () => stage.fit(bench.made?.part.bounds));
  const comb = byId<HTMLInputElement>('show-comb');
  comb.addEventListener('change', () => drawing.showComb(comb.checked));
  for (const radio of document.querySelectorAll<HTMLInputElement>('input[name="unit"]'))
    radio.addEventListener('change', () => {
      bench.showIn(radio.value === 'mm' ? 'mm' : 'in');
      rules.draw();
    });
}

byId('back').addEventListener('click', () => bench.back());
byId('forward').addEventListener('click', () => bench.forward());
window.addEventListener('keydown', keys);
bench.changed(changed);
bench.rests(rested);
lightSwitch();
looking();
jobs();
start(first);
offerBefore();
void setType();
