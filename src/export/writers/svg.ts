import { paramCurve, pieceStart } from '../../curves/geometry/evaluate.ts';
import type { ArcSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { arcToCubics } from '../../curves/geometry/transform.ts';
import { groupConsecutive } from '../../units/lists.ts';
import type { Clip, Drawing, Item, LayerName, LineStyle, Stroke, Words } from '../drawing/drawing.ts';
import { LINE_APPEARANCES } from '../drawing/drawing.ts';

/** A micrometre: a tenth of a thousandth of what the eye sees, and short to read. */
const DECIMALS = 3;
/** A nanometre, for machines: what is left of the smallest part and the flattest arc. */
const FINE_DECIMALS = 6;
const FALLBACK_FAMILY = 'sans-serif';
const FONT_FAMILIES = `'Source Sans 3', 'Source Sans Pro', ${FALLBACK_FAMILY}`;
/** Radians. With rounded ends half a circle may bulge by √(2r · 0.0005 mm), 0.2 mm at r = 50 mm; an eighth by 0.001 mm. */
const MAX_SWEEP = Math.PI / 4;
/** In single precision a reader's center of a radius of 20 m is off by 0.001 mm: flatter arcs are drawn as cubics. */
const MAX_RADIUS_MM = 20_000;
const FLAT_ARC_FIT_MM = 1e-4;
/** Only some fonts set it as a real fraction, and the reader's font is not known here. */
const FRACTION_STROKE = '⁄';

export interface SvgOptions {
  /** For a machine: finer, and nothing but its lines, as a white page would be cut out too. */
  readonly bare?: boolean;
  readonly about?: string;
}

/** In mm, y down. Looks are attributes (SVG 1.1, 6.4): programs for lasers know no style sheets. */
export function writeSvg(drawing: Drawing, title: string, { bare = false, about }: SvgOptions = {}): string {
  const { width, height } = drawing;
  const number = decimals(bare ? FINE_DECIMALS : DECIMALS);
  const sink: SvgSink = { height, bare, clips: [], number };
  const body = groupConsecutive(drawing.items, layerOf).map(([layer, items]) => {
    const drawn = drawAll(sink, items);
    return layer === undefined ? drawn : `<g id="${layer}">\n${drawn}\n</g>`;
  });
  const size = `width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} font-family="${bare ? FALLBACK_FAMILY : FONT_FAMILIES}">`,
    `<title>${escapeXml(title)}</title>`,
    `<desc>Drawn by fairlath. Lengths in mm.${about ? ` ${escapeXml(about)}` : ''}</desc>`,
    ...(sink.clips.length > 0 ? [`<defs>${sink.clips.join('')}</defs>`] : []),
    ...(bare ? [] : [`<rect width="100%" height="100%" fill="#ffffff"/>`]),
    ...body,
    '</svg>',
    '',
  ].join('\n');
}

interface SvgFrame {
  readonly height: number;
  readonly number: (value: number) => string;
}

interface SvgSink extends SvgFrame {
  readonly bare: boolean;
  readonly clips: string[];
}

const layerOf = (item: Item): LayerName | undefined => (item.type === 'clip' ? undefined : item.layer);

function drawAll(sink: SvgSink, items: readonly Item[]): string {
  const styleOf = (item: Item): LineStyle | undefined =>
    item.type === 'stroke' && !sink.bare ? item.style : undefined;
  return groupConsecutive(items, styleOf)
    .flatMap(([style, row]) => {
      const drawn = row.map((item) => draw(sink, item));
      return style === undefined ? drawn : [`<g ${styleAttributes(style)}>`, ...drawn, '</g>'];
    })
    .join('\n');
}

function styleAttributes(style: LineStyle, names: string = style): string {
  const { width, dash, colour } = LINE_APPEARANCES[style];
  const dashes = dash ? ` stroke-dasharray="${dash.join(' ')}"` : '';
  return `class="${names}" fill="none" stroke="${colour}" stroke-width="${width}"${dashes}`;
}

function draw(sink: SvgSink, item: Item): string {
  if (item.type === 'stroke') return strokeElement(sink, item);
  return item.type === 'words' ? textElement(sink, item) : clipElement(sink, item);
}

/** The data of an SVG path element: mm, y down from the frame's height. */
export function pathData(path: readonly Segment[], closed = false, frame: SvgFrame = UNFRAMED): string {
  const [first] = path;
  if (!first) return '';
  const steps = path.map((segment) => pathCommand(frame, segment));
  return `M${coordinates(frame, pieceStart(first))}${steps.join('')}${closed ? 'Z' : ''}`;
}

function strokeElement(sink: SvgSink, { style, layer, path, closed, filled, title }: Stroke): string {
  const d = pathData(path, closed, sink);
  if (d === '') return '';
  const names = layer === undefined || layer === style ? style : `${layer} ${style}`;
  const looks = sink.bare ? `${styleAttributes(style, names)} ` : '';
  const fill = filled ? ` fill="${LINE_APPEARANCES[style].colour}"` : '';
  const end = title === undefined ? '/>' : `><title>${escapeXml(title)}</title></path>`;
  return `<path ${looks}d="${d}"${fill}${end}`;
}

function pathCommand(frame: SvgFrame, segment: Segment): string {
  switch (segment.type) {
    case 'line':
      return `L${coordinates(frame, segment.to)}`;
    case 'cubic': {
      const [, ...rest] = segment.controls;
      return `C${rest.map((control) => coordinates(frame, control)).join(' ')}`;
    }
    case 'arc':
      return arcCommands(frame, segment);
  }
}

function arcCommands(frame: SvgFrame, arc: ArcSegment): string {
  if (arc.radius > MAX_RADIUS_MM && Number.isFinite(arc.radius))
    return arcToCubics(arc, FLAT_ARC_FIT_MM)
      .map((cubic) => pathCommand(frame, cubic))
      .join('');
  const { number } = frame;
  const count = Math.max(1, Math.ceil(Math.abs(arc.sweep) / MAX_SWEEP));
  const clockwise = arc.sweep > 0 ? 0 : 1;
  const at = paramCurve(arc);
  return Array.from({ length: count }, (_, i) => {
    const to = at((i + 1) / count);
    return `A${number(arc.radius)} ${number(arc.radius)} 0 0 ${clockwise} ${coordinates(frame, to)}`;
  }).join('');
}

function textElement(sink: SvgSink, { text, at, size, anchor, turn, bold }: Words): string {
  const { number } = sink;
  const [x, y] = [number(at.x), number(sink.height - at.y)];
  const isLevel = turn === undefined || turn === 0;
  const turned = isLevel ? '' : ` transform="rotate(${number((-turn * 180) / Math.PI)} ${x} ${y})"`;
  const shown = escapeXml(text.replaceAll(FRACTION_STROKE, '/'));
  return `<text x="${x}" y="${y}" font-size="${number(size)}" text-anchor="${anchor}"${bold ? ' font-weight="bold"' : ''}${turned}>${shown}</text>`;
}

function clipElement(sink: SvgSink, { left, bottom, right, top, items }: Clip): string {
  const { number } = sink;
  const id = `clip${sink.clips.length + 1}`;
  const box = `x="${number(left)}" y="${number(sink.height - top)}" width="${number(right - left)}" height="${number(top - bottom)}"`;
  sink.clips.push(`<clipPath id="${id}"><rect ${box}/></clipPath>`);
  return `<g clip-path="url(#${id})">${drawAll(sink, items)}</g>`;
}

const coordinates = ({ height, number }: SvgFrame, { x, y }: Point): string =>
  `${number(x)} ${number(height - y)}`;

/** Never an exponent: toFixed writes none below 1e21, and six decimals leave none above 0. */
const decimals =
  (most: number) =>
  (value: number): string => {
    if (!(Math.abs(value) < 1e9)) throw new Error(`a drawing holds ${value}`);
    return String(Number(value.toFixed(most)) + 0);
  };

const UNFRAMED: SvgFrame = { height: 0, number: decimals(DECIMALS) };

const escapeXml = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
