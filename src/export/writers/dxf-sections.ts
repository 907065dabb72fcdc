import type { Box } from '../../curves/geometry/bounds.ts';
import { point } from '../../curves/geometry/point.ts';
import { type LayerName, LINE_APPEARANCES, type LineStyle } from '../drawing/drawing.ts';
import { type DxfLengths, dxfText, realTag, type Tag, tag } from './dxf-tags.ts';

/** 12: the oldest machines read it, and every newer one; 2000: the first with all that a spline needs. */
export type DxfRelease = '12' | '2000';

export interface DxfDocument {
  readonly release: DxfRelease;
  readonly unit: 'mm' | 'in';
  readonly lengths: DxfLengths;
  readonly layers: readonly LayerName[];
  readonly box: Box;
  readonly about: readonly string[];
}

/** Colours by number (7: black on white and white on black) and the line that gives a layer its dashes. */
const LAYER_STYLES: Readonly<Record<LayerName, { readonly color: number; readonly style: LineStyle }>> = {
  cut: { color: 7, style: 'cut' },
  saw: { color: 1, style: 'saw' },
  parallel: { color: 5, style: 'parallel' },
  joints: { color: 3, style: 'joint' },
  marks: { color: 4, style: 'mark' },
  text: { color: 8, style: 'cut' },
  board: { color: 9, style: 'rule' },
};

/** Handles of what a release 2000 file must have; entities count on from FIRST_HANDLE. */
const HANDLES = { model: '1A', paper: '1B', root: 'C', groups: 'D' } as const;
export const MODEL_SPACE = HANDLES.model;
export const FIRST_HANDLE = 0x100;

/** The whole file around its entities. */
export function documentTags(frame: DxfDocument, entities: readonly Tag[], lastHandle: number): Tag[] {
  const modern = frame.release === '2000';
  const model = blockTags('*Model_Space', HANDLES.model, 0x20);
  const paper = blockTags('*Paper_Space', HANDLES.paper, 0x22);
  return [
    ...['Drawn by fairlath.', ...frame.about].map((line) => tag(999, dxfText(line))),
    ...sectionTags('HEADER', headerVariables(frame, lastHandle)),
    ...sectionTags('TABLES', symbolTables(frame)),
    ...sectionTags('BLOCKS', modern ? [...model, ...paper] : []),
    ...sectionTags('ENTITIES', entities),
    ...(modern ? sectionTags('OBJECTS', objectTags()) : []),
    tag(0, 'EOF'),
  ];
}

const sectionTags = (name: string, tags: readonly Tag[]): Tag[] => [
  tag(0, 'SECTION'),
  tag(2, name),
  ...tags,
  tag(0, 'ENDSEC'),
];

/** Readers take the numbers as they are; those of release 12 pass over $INSUNITS and $MEASUREMENT, which it lacks. */
function headerVariables({ release, unit, lengths, box }: DxfDocument, lastHandle: number): Tag[] {
  const variable = (name: string, ...tags: Tag[]): Tag[] => [tag(9, name), ...tags];
  const [low, high] = [point(box.left, box.bottom), point(box.right, box.top)];
  return [
    ...variable('$ACADVER', tag(1, release === '12' ? 'AC1009' : 'AC1015')),
    ...variable('$DWGCODEPAGE', tag(3, 'ANSI_1252')),
    ...variable('$INSBASE', ...lengths.point3d(10, point(0, 0))),
    ...variable('$EXTMIN', ...lengths.point3d(10, low)),
    ...variable('$EXTMAX', ...lengths.point3d(10, high)),
    ...variable('$LIMMIN', ...lengths.point2d(10, low)),
    ...variable('$LIMMAX', ...lengths.point2d(10, high)),
    ...variable('$LUNITS', tag(70, 2)),
    ...variable('$INSUNITS', tag(70, unit === 'mm' ? 4 : 1)),
    ...variable('$MEASUREMENT', tag(70, unit === 'mm' ? 1 : 0)),
    ...(release === '12' ? [] : variable('$HANDSEED', tag(5, handleText(lastHandle + 1)))),
  ];
}

/** Hexadecimal, in capitals. */
export const handleText = (handle: number): string => handle.toString(16).toUpperCase();

interface TableRecord {
  readonly handle: string;
  readonly name: string;
  readonly subclass: string;
  readonly tags?: readonly Tag[];
}

function symbolTables(frame: DxfDocument): Tag[] {
  const { release, lengths } = frame;
  const modern = release === '2000';
  const table = (name: string, handle: string, records: readonly TableRecord[]): Tag[] => [
    tag(0, 'TABLE'),
    tag(2, name),
    ...(modern ? [tag(5, handle), tag(330, '0'), tag(100, 'AcDbSymbolTable')] : []),
    tag(70, records.length),
    ...(modern && name === 'DIMSTYLE' ? [tag(100, 'AcDbDimStyleTable')] : []),
    ...records.flatMap((record) => [
      tag(0, name),
      ...(modern ? recordTags(name, handle, record) : []),
      tag(2, record.name),
      ...(name === 'BLOCK_RECORD' ? [] : [tag(70, 0)]),
      ...(record.tags ?? []),
    ]),
    tag(0, 'ENDTAB'),
  ];
  const style = [lengths.tag(40, 0), realTag(41, 1), realTag(50, 0), tag(71, 0), lengths.tag(42, 1)];
  const font = [tag(3, 'txt'), tag(4, '')];
  const subclass = 'AcDbTextStyleTableRecord';
  const always = [
    ...table('LTYPE', '5', lineTypeRecords(frame)),
    ...table('LAYER', '2', layerRecords(frame)),
    ...table('STYLE', '3', [{ handle: '33', name: 'STANDARD', subclass, tags: [...style, ...font] }]),
  ];
  if (!modern) return always;
  return [
    ...table('VPORT', '8', []),
    ...always,
    ...table('VIEW', '6', []),
    ...table('UCS', '7', []),
    ...table('APPID', '9', [{ handle: '12', name: 'ACAD', subclass: 'AcDbRegAppTableRecord' }]),
    ...table('DIMSTYLE', 'A', [{ handle: '27', name: 'STANDARD', subclass: 'AcDbDimStyleTableRecord' }]),
    ...table('BLOCK_RECORD', '1', [
      { handle: HANDLES.model, name: '*Model_Space', subclass: 'AcDbBlockTableRecord' },
      { handle: HANDLES.paper, name: '*Paper_Space', subclass: 'AcDbBlockTableRecord' },
    ]),
  ];
}

const recordTags = (table: string, owner: string, { handle, subclass }: TableRecord): Tag[] => [
  tag(table === 'DIMSTYLE' ? 105 : 5, handle),
  tag(330, owner),
  tag(100, 'AcDbSymbolTableRecord'),
  tag(100, subclass),
];

function lineTypeRecords({ release, layers, lengths }: DxfDocument): TableRecord[] {
  const row = (handle: string, name: string, about: string, dash: readonly number[]): TableRecord => {
    const total = dash.reduce((a, b) => a + b, 0);
    const pattern = dash.flatMap((length, i) => [
      lengths.tag(49, i % 2 === 0 ? length : -length),
      ...(release === '2000' ? [tag(74, 0)] : []),
    ]);
    const tags = [tag(3, about), tag(72, 65), tag(73, dash.length), lengths.tag(40, total), ...pattern];
    return { handle, name, subclass: 'AcDbLinetypeTableRecord', tags };
  };
  const dashed = layers.filter((layer) => dashPattern(layer).length > 0);
  return [
    ...(release === '2000' ? [row('14', 'BYBLOCK', '', []), row('15', 'BYLAYER', '', [])] : []),
    row('16', 'CONTINUOUS', 'Solid', []),
    ...dashed.map((layer, i) =>
      row(handleText(0x50 + i), lineTypeName(layer), `Dashes of ${layer}`, dashPattern(layer)),
    ),
  ];
}

const dashPattern = (layer: LayerName): readonly number[] =>
  LINE_APPEARANCES[LAYER_STYLES[layer].style].dash ?? [];
const lineTypeName = (layer: LayerName): string =>
  dashPattern(layer).length > 0 ? `${layer.toUpperCase()}_LINE` : 'CONTINUOUS';

function layerRecords({ layers }: DxfDocument): TableRecord[] {
  const record = (i: number, name: string, color: number, line: string): TableRecord => ({
    handle: handleText(0x40 + i),
    name,
    subclass: 'AcDbLayerTableRecord',
    tags: [tag(62, color), tag(6, line)],
  });
  const named = layers.map((name, i) => record(i + 1, name, LAYER_STYLES[name].color, lineTypeName(name)));
  return [record(0, '0', 7, 'CONTINUOUS'), ...named];
}

const entityTags = (type: string, handle: string, record: string, subclass: string): Tag[] => [
  tag(0, type),
  tag(5, handle),
  tag(330, record),
  tag(100, 'AcDbEntity'),
  tag(8, '0'),
  tag(100, subclass),
];

const blockTags = (name: string, record: string, handle: number): Tag[] => [
  ...entityTags('BLOCK', handleText(handle), record, 'AcDbBlockBegin'),
  tag(2, name),
  tag(70, 0),
  ...[10, 20, 30].map((code) => realTag(code, 0)),
  tag(3, name),
  tag(1, ''),
  ...entityTags('ENDBLK', handleText(handle + 1), record, 'AcDbBlockEnd'),
];

const dictionary = (handle: string, owner: string): Tag[] => [
  tag(0, 'DICTIONARY'),
  tag(5, handle),
  tag(330, owner),
  tag(100, 'AcDbDictionary'),
  tag(281, 1),
];

const objectTags = (): Tag[] => [
  ...dictionary(HANDLES.root, '0'),
  tag(3, 'ACAD_GROUP'),
  tag(350, HANDLES.groups),
  ...dictionary(HANDLES.groups, HANDLES.root),
];
