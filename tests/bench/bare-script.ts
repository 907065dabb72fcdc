import type { Segment } from '../../src/curves/geometry/pieces/piece.ts';
import { arcToCubics } from '../../src/curves/geometry/transform.ts';
import {
  type Item,
  LINE_APPEARANCES,
  type Page,
  type Stroke,
  type Words,
} from '../../src/export/drawing/drawing.ts';

/*
 * The program that someone would write by hand to draw the same pages: the PDF library and one call after the
 * other, nothing worked out. What fairlath takes beside it is the price of reading, bending and laying out.
 */

const PT = 72 / 25.4;
const show = (value: number): string => String(Number(value.toFixed(4)));

/** The pages as such a program, for its file. */
export function bareScript(pages: readonly Page[], fontFile: string, output: string): string {
  return [
    `import { createWriteStream } from 'node:fs';`,
    `import PDFDocument from 'pdfkit';`,
    `const pdf = new PDFDocument({ autoFirstPage: false, font: ${JSON.stringify(fontFile)} });`,
    `pdf.pipe(createWriteStream(${JSON.stringify(output)}));`,
    ...pages.flatMap(({ drawing: { width, height, items } }) => [
      `pdf.addPage({ size: [${show(width * PT)}, ${show(height * PT)}], margin: 0 });`,
      ...items.map((item) => call(item, height)),
    ]),
    'pdf.end();',
  ].join('\n');
}

function call(item: Item, height: number): string {
  const at = (x: number, y: number): string => `${show(x * PT)}, ${show((height - y) * PT)}`;
  switch (item.type) {
    case 'stroke':
      return strokeCall(item, at);
    case 'words':
      return wordsCall(item, at);
    case 'clip': {
      const size = `${show((item.right - item.left) * PT)}, ${show((item.top - item.bottom) * PT)}`;
      const inner = item.items.map((one) => call(one, height)).join('\n');
      return `pdf.save().rect(${at(item.left, item.top)}, ${size}).clip();\n${inner}\npdf.restore();`;
    }
  }
}

type At = (x: number, y: number) => string;

function strokeCall({ style, path, closed, filled }: Stroke, at: At): string {
  const { width, dash, colour } = LINE_APPEARANCES[style];
  const lines = path.flatMap((segment, i) => segmentCalls(segment, i === 0, at)).join('');
  const dashed = dash ? `.dash([${dash.map((mm) => show(mm * PT)).join(', ')}])` : '.undash()';
  const end = filled ? `.fill('${colour}')` : `.stroke('${colour}')`;
  return `pdf.lineWidth(${show(width * PT)})${dashed}${lines}${closed ? '.closePath()' : ''}${end};`;
}

function segmentCalls(segment: Segment, first: boolean, at: At): string[] {
  if (segment.type === 'arc')
    return arcToCubics(segment, 0.0005).flatMap((cubic, i) => segmentCalls(cubic, first && i === 0, at));
  const [from, ...rest] = segment.type === 'line' ? [segment.from, segment.to] : segment.controls;
  const start = first ? [`.moveTo(${at(from.x, from.y)})`] : [];
  const way = rest.map(({ x, y }) => at(x, y)).join(', ');
  return [...start, segment.type === 'line' ? `.lineTo(${way})` : `.bezierCurveTo(${way})`];
}

function wordsCall({ text, at: { x, y }, size, anchor, turn = 0 }: Words, at: At): string {
  const share = { start: 0, middle: 0.5, end: 1 }[anchor];
  const back = share === 0 ? '0' : `-pdf.widthOfString(${JSON.stringify(text)}) * ${share}`;
  const turned = turn === 0 ? '' : `.rotate(${show((-turn * 180) / Math.PI)})`;
  return (
    `pdf.fontSize(${show(size * PT)}).fillColor('black').save().translate(${at(x, y)})${turned}` +
    `.text(${JSON.stringify(text)}, ${back}, 0, { lineBreak: false, baseline: 'alphabetic' }).restore();`
  );
}
