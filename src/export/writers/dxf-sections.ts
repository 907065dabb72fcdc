import type { Box } from '../../curves/geometry/bounds.ts';
import { type LayerName, LINE_LOOKS, type LineStyle } from '../drawing/drawing.ts';
import { type Lengths, plainText, share, type Tag, tag } from './dxf-tags.ts';

/**
 * Which DXF: release 12, which the oldest machines read and every newer one still does, or release 2000, the
 * first with all that a spline needs.
 */
export type Release = '12' | '2000';

export interface DxfFrame {
  readonly release: Release;
  readonly unit: 'mm' | 'in';
  readonly lengths: Lengths;
  readonly layers: readonly LayerName[];
  readonly box: Box;
  readonly about: readonly string[];
}

/** Colours by number (7: black on white and white on black) and the line that gives a layer its dashes. */
const LAYER_LOOKS: Readonly<Record<LayerName, { readonly colour: number; readonly style: LineStyle }>> = {
  cut: { colour: 7, style: 'cut' },
  saw: { colour: 1, style: 'saw' },
  parallel: { colour: 5, style: 'parallel' },
  joints: { colour: 3, style: 'joint' },
  marks: { colour: 4, style: 'mark' },
  text: { colour: 8, style: 'cut' },
  board: { colour: 9, style: 'rule' },
};

/** Handles of what a release 2000 file must have; entities count on from FIRST_HANDLE. */
const HANDLES = { model: '1A', paper: '1B', root: 'C', groups: 'D' } as const;
export const MODEL_SPACE = HANDLES.model;
export const FIRST_HANDLE = 0x100;

/** The file round its entities. */
export function framed(frame: DxfFrame, entities: readonly Tag[], lastHandle: number): Tag[] {
  const modern = frame.release === '2000';
  return [
    ...['Drawn by fairlath.', ...frame.about].map((line) => tag(999, plainText(line))),
    ...section('HEADER', header(frame, lastHandle)),
    ...section('TABLES', tables(frame)),
    ...section(
      'BLOCKS',
      modern ? [...block('*Model_Space', '1A', '20'), ...block('*Paper_Space', '1B', '22')] : [],
    ),
    ...section('ENTITIES', entities),
    ...(modern ? section('OBJECTS', objects()) : []),
    tag(0, 'EOF'),
  ];
}

const section = (name: string, tags: readonly Tag[]): Tag[] => [
  tag(0, 'SECTION'),
  tag(2, name),
  ...tags,
  tag(0, 'ENDSEC'),
];

/**
 * The unit is named, but it is a name only: readers take the numbers as they are. Release 12 knows neither
 * $INSUNITS nor $MEASUREMENT; its readers pass over what they do not know.
 */
function header({ release, unit, lengths, box }: DxfFrame, lastHandle: number): Tag[] {
  const variable = (name: string, ...tags: Tag[]): Tag[] => [tag(9, name), ...tags];
  const [low, high] = [
    { x: box.left, y: box.bottom },
    { x: box.right, y: box.top },
  ];
  return [
    ...variable('$ACADVER', tag(1, release === '12' ? 'AC1009' : 'AC1015')),
    ...variable('$DWGCODEPAGE', tag(3, 'ANSI_1252')),
    ...variable('$INSBASE', ...lengths.solid(10, { x: 0, y: 0 })),
    ...variable('$EXTMIN', ...lengths.solid(10, low)),
    ...variable('$EXTMAX', ...lengths.solid(10, high)),
    ...variable('$LIMMIN', ...lengths.at(10, low)),
    ...variable('$LIMMAX', ...lengths.at(10, high)),
    ...variable('$LUNITS', tag(70, 2)),
    ...variable('$INSUNITS', tag(70, unit === 'mm' ? 4 : 1)),
    ...variable('$MEASUREMENT', tag(70, unit === 'mm' ? 1 : 0)),
    ...(release === '12' ? [] : variable('$HANDSEED', tag(5, hex(lastHandle + 1)))),
  ];
}

export const hex = (handle: number): string => handle.toString(16).toUpperCase();

interface Row {
  readonly handle: string;
  readonly name: string;
  readonly mark: string;
  readonly flags?: number;
  readonly tags: readonly Tag[];
}

function tables(frame: DxfFrame): Tag[] {
  const { release, lengths } = frame;
  const modern = release === '2000';
  const table = (name: string, handle: string, rows: readonly Row[]): Tag[] => [
    tag(0, 'TABLE'),
    tag(2, name),
    ...(modern ? [tag(5, handle), tag(330, '0'), tag(100, 'AcDbSymbolTable')] : []),
    tag(70, rows.length),
    ...(modern && name === 'DIMSTYLE' ? [tag(100, 'AcDbDimStyleTable')] : []),
    ...rows.flatMap((row) => [
      tag(0, name),
      ...(modern
        ? [
            tag(name === 'DIMSTYLE' ? 105 : 5, row.handle),
            tag(330, handle),
            tag(100, 'AcDbSymbolTableRecord'),
            tag(100, row.mark),
          ]
        : []),
      tag(2, row.name),
      ...(name === 'BLOCK_RECORD' ? [] : [tag(70, row.flags ?? 0)]),
      ...row.tags,
    ]),
    tag(0, 'ENDTAB'),
  ];
  const always = [
    ...table('LTYPE', '5', lineTypes(frame)),
    ...table('LAYER', '2', layerRows(frame)),
    ...table('STYLE', '3', [
      {
        handle: '33',
        name: 'STANDARD',
        mark: 'AcDbTextStyleTableRecord',
        tags: [
          lengths.tag(40, 0),
          share(41, 1),
          share(50, 0),
          tag(71, 0),
          lengths.tag(42, 1),
          tag(3, 'txt'),
          tag(4, ''),
        ],
      },
    ]),
  ];
  if (!modern) return always;
  const plain = (handle: string, name: string, mark: string): Row => ({ handle, name, mark, tags: [] });
  return [
    ...table('VPORT', '8', []),
    ...always,
    ...table('VIEW', '6', []),
    ...table('UCS', '7', []),
    ...table('APPID', '9', [plain('12', 'ACAD', 'AcDbRegAppTableRecord')]),
    ...table('DIMSTYLE', 'A', [plain('27', 'STANDARD', 'AcDbDimStyleTableRecord')]),
    ...table('BLOCK_RECORD', '1', [
      plain(HANDLES.model, '*Model_Space', 'AcDbBlockTableRecord'),
      plain(HANDLES.paper, '*Paper_Space', 'AcDbBlockTableRecord'),
    ]),
  ];
}

/** The dashes of the layers in use, each under the name of its layer, and the solid line. */
function lineTypes({ release, layers, lengths }: DxfFrame): Row[] {
  const row = (handle: string, name: string, about: string, dash: readonly number[]): Row => ({
    handle,
    name,
    mark: 'AcDbLinetypeTableRecord',
    tags: [
      tag(3, about),
      tag(72, 65),
      tag(73, dash.length),
      lengths.tag(
        40,
        dash.reduce((sum, length) => sum + length, 0),
      ),
      ...dash.flatMap((length, i) => [
        lengths.tag(49, i % 2 === 0 ? length : -length),
        ...(release === '2000' ? [tag(74, 0)] : []),
      ]),
    ],
  });
  const dashed = layers.filter((layer) => dashOf(layer).length > 0);
  return [
    ...(release === '2000' ? [row('14', 'BYBLOCK', '', []), row('15', 'BYLAYER', '', [])] : []),
    row('16', 'CONTINUOUS', 'Solid line', []),
    ...dashed.map((layer, i) => row(hex(0x50 + i), lineTypeOf(layer), `Dashes of ${layer}`, dashOf(layer))),
  ];
}

const dashOf = (layer: LayerName): readonly number[] => LINE_LOOKS[LAYER_LOOKS[layer].style].dash ?? [];
const lineTypeOf = (layer: LayerName): string =>
  dashOf(layer).length > 0 ? `${layer.toUpperCase()}_LINE` : 'CONTINUOUS';

const layerRows = ({ layers }: DxfFrame): Row[] =>
  [
    { name: '0', colour: 7, line: 'CONTINUOUS' },
    ...layers.map((layer) => ({ name: layer, colour: LAYER_LOOKS[layer].colour, line: lineTypeOf(layer) })),
  ].map(({ name, colour, line }, i) => ({
    handle: hex(0x40 + i),
    name,
    mark: 'AcDbLayerTableRecord',
    tags: [tag(62, colour), tag(6, line)],
  }));

const block = (name: string, record: string, handle: string): Tag[] => [
  tag(0, 'BLOCK'),
  tag(5, handle),
  tag(330, record),
  tag(100, 'AcDbEntity'),
  tag(8, '0'),
  tag(100, 'AcDbBlockBegin'),
  tag(2, name),
  tag(70, 0),
  share(10, 0),
  share(20, 0),
  share(30, 0),
  tag(3, name),
  tag(1, ''),
  tag(0, 'ENDBLK'),
  tag(5, hex(Number.parseInt(handle, 16) + 1)),
  tag(330, record),
  tag(100, 'AcDbEntity'),
  tag(8, '0'),
  tag(100, 'AcDbBlockEnd'),
];

const objects = (): Tag[] => [
  tag(0, 'DICTIONARY'),
  tag(5, HANDLES.root),
  tag(330, '0'),
  tag(100, 'AcDbDictionary'),
  tag(281, 1),
  tag(3, 'ACAD_GROUP'),
  tag(350, HANDLES.groups),
  tag(0, 'DICTIONARY'),
  tag(5, HANDLES.groups),
  tag(330, HANDLES.root),
  tag(100, 'AcDbDictionary'),
  tag(281, 1),
];
