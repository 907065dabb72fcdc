import { along, segmentStart } from '../curves/along.ts';
import type { ArcSegment, Segment } from '../curves/piece.ts';
import type { Point } from '../curves/point.ts';
import { type Clip, type Drawing, type Item, LINE_LOOKS, type Stroke, type Words } from './drawing.ts';

/** A micrometre: a tenth of a thousandth of what the eye sees, and short to read. */
const DECIMALS = 3;

/**
 * A drawing as an SVG text: mm in size and in its viewBox, y down, lines by class, native curves, words
 * as words. Numbers are plain decimals; one that is not finite is refused.
 */
export function writeSvg(drawing: Drawing, title: string): string {
  const { width, height } = drawing;
  const sink: Sink = { height, clips: [] };
  const body = drawing.items.map((item) => draw(sink, item));
  const size = `width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size}>`,
    `<title>${escaped(title)}</title>`,
    `<desc>Drawn by fairlath. Lengths in mm.</desc>`,
    `<style>${styles()}</style>`,
    ...(sink.clips.length > 0 ? [`<defs>${sink.clips.join('')}</defs>`] : []),
    `<rect width="100%" height="100%" fill="#ffffff"/>`,
    ...body,
    '</svg>',
    '',
  ].join('\n');
}

interface Frame {
  readonly height: number;
}

interface Sink extends Frame {
  readonly clips: string[];
}

function styles(): string {
  const looks = Object.entries(LINE_LOOKS).map(([name, { width, dash, colour }]) => {
    const dashes = dash ? `;stroke-dasharray:${dash.map(number).join(' ')}` : '';
    return `.${name}{fill:none;stroke:${colour};stroke-width:${number(width)}${dashes}}`;
  });
  return `${looks.join('')}text{font-family:"Source Sans 3","Source Sans Pro",sans-serif}`;
}

function draw(sink: Sink, item: Item): string {
  switch (item.type) {
    case 'stroke':
      return strokeText(sink, item);
    case 'words':
      return wordsText(sink, item);
    case 'clip':
      return clipText(sink, item);
  }
}

/**
 * The data of an SVG path element: contiguous segments, mm, y down from `height` (from 0 for a drawing that
 * is put in its place by a transform).
 */
export function pathData(path: readonly Segment[], closed = false, height = 0): string {
  const [first] = path;
  if (!first) return '';
  const frame = { height };
  const steps = path.map((segment) => step(frame, segment));
  return `M${place(frame, segmentStart(first))}${steps.join('')}${closed ? 'Z' : ''}`;
}

function strokeText({ height }: Sink, { style, path, closed, filled }: Stroke): string {
  const d = pathData(path, closed, height);
  if (d === '') return '';
  const fill = filled ? ` style="fill:${LINE_LOOKS[style].colour}"` : '';
  // Some readers know no style sheets and would fill every shape.
  return `<path class="${style}" fill="none" d="${d}"${fill}/>`;
}

function step(frame: Frame, segment: Segment): string {
  switch (segment.type) {
    case 'line':
      return `L${place(frame, segment.to)}`;
    case 'cubic':
      return `C${segment.controls
        .slice(1)
        .map((p) => place(frame, p))
        .join(' ')}`;
    case 'arc':
      return arcSteps(frame, segment);
  }
}

/**
 * The most of a circle in one command, radians. Where its radius and ends are rounded, half a circle may
 * bulge by √(2r · 0.0005 mm) too much, 0.2 mm at a radius of 50 mm; an eighth moves by 0.001 mm.
 */
const MOST_SWEEP = Math.PI / 4;

function arcSteps(frame: Frame, arc: ArcSegment): string {
  const count = Math.max(1, Math.ceil(Math.abs(arc.sweep) / MOST_SWEEP));
  const clockwise = arc.sweep > 0 ? 0 : 1;
  const at = along(arc);
  return Array.from({ length: count }, (_, i) => {
    const to = at((i + 1) / count);
    return `A${number(arc.radius)} ${number(arc.radius)} 0 0 ${clockwise} ${place(frame, to)}`;
  }).join('');
}

/** Set as a real fraction only by some fonts, and the reader's own is not known here. */
const FRACTION_STROKE = '⁄';

const ANCHORS = { start: 'start', middle: 'middle', end: 'end' } as const;

function wordsText(sink: Sink, { text, at, size, anchor, turn }: Words): string {
  const [x, y] = [number(at.x), number(sink.height - at.y)];
  const turned =
    turn !== undefined && turn !== 0
      ? ` transform="rotate(${number((-turn * 180) / Math.PI)} ${x} ${y})"`
      : '';
  return `<text x="${x}" y="${y}" font-size="${number(size)}" text-anchor="${ANCHORS[anchor]}"${turned}>${escaped(text.replaceAll(FRACTION_STROKE, '/'))}</text>`;
}

function clipText(sink: Sink, { left, bottom, right, top, items }: Clip): string {
  const id = `clip${sink.clips.length + 1}`;
  const box = `x="${number(left)}" y="${number(sink.height - top)}" width="${number(right - left)}" height="${number(top - bottom)}"`;
  sink.clips.push(`<clipPath id="${id}"><rect ${box}/></clipPath>`);
  return `<g clip-path="url(#${id})">${items.map((item) => draw(sink, item)).join('')}</g>`;
}

const place = ({ height }: Frame, { x, y }: Point): string => `${number(x)} ${number(height - y)}`;

/** Never an exponent: toFixed writes none below 1e21. */
function number(value: number): string {
  if (!(Math.abs(value) < 1e9)) throw new Error(`a drawing holds ${value}`);
  return String(Number(value.toFixed(DECIMALS)) + 0);
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
