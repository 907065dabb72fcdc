import type { Part } from '../../part/part.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import { planPlies } from '../../shop/plies/plan-plies.ts';
import { blankWarnings, boardFeet } from '../../shop/stock/blank.ts';
import type { LayerChoice } from '../../shop/stock/lumber-thicknesses.ts';
import { planStock, type StockPlan, type WoodAmount } from '../../shop/stock/stock-plan.ts';
import { weighPart } from '../../shop/stock/weight.ts';
import {
  laminationCautions,
  stockWarnings as plyStockWarnings,
} from '../../shop/words/describe-lamination.ts';
import {
  describeAmount,
  describeBlank,
  describeGrain,
  layerRows,
  nestingRows,
  runoutGrade,
  STOCK_CAUTIONS,
} from '../../shop/words/describe-stock.ts';
import { showSizes } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { degrees, showAngle } from '../../units/number-format.ts';
import { showLength } from '../../units/rule.ts';
import { jobCommand } from '../define-command.ts';
import { writePicture } from '../files/atomic-write.ts';
import { BOARD_OPTIONS, readStockOptions, requireNesting } from '../options/board-options.ts';
import { type OptionValues, refuseForLaminated } from '../options/option-spec.ts';
import { forceOption, pictureOption } from '../options/shared-options.ts';
import { laminatedStockText, laminationJson, resawingJson } from '../output/lamination-output.ts';
import { type CommandAnswer, pick, placeJson, safetyText, textTable } from '../output/print-answer.ts';
import { type FaultContext, withFaultContext } from '../output/report-errors.ts';

const OPTIONS = [
  ...BOARD_OPTIONS,
  pictureOption('also draw the board with the copies on it, to scale'),
  forceOption,
] as const;

export const makeCommand = jobCommand({
  name: 'stock',
  summary: 'the wood: blank, boards, weight, grain',
  description:
    'Plan the wood: the blank with its allowances, rough boards and layers, volume and weight. Also lay the copies on ' +
    'boards, and find the worst grain runout and the weakest section.',
  options: OPTIONS,
  notes: [
    'The blank is the overall size of the part, with the saw line and the long points. It adds 1/2" to the length, 1/4" ' +
      'to the width and 1/8" to the thickness. To change the width, write "width" under "allowance" in the job.',
    'A laminated part has no blank. Its plies are listed instead, with the board that they are sawn from.',
    'The copies are in the closest of many layouts that follow their outlines, at least a kerf apart.',
    'Volume and weight are for one blank or one finished part, unless the line names a quantity.',
  ],
  files: 'Reads JOB. Writes the SVG that --picture names.',
  examples: [
    'fairlath stock samples/hall-bench-leg.yaml --board-width 10',
    'fairlath stock samples/hall-bench-leg.yaml --board-width 10 --picture board.svg',
    'fairlath stock samples/wall-shelf-bracket.yaml --board-width 250 --board-length 900',
    'fairlath stock samples/wall-shelf-bracket.yaml --board-width 160 --grain "1 in 3"',
  ],
  run: async ({ part, context, file }, options) => {
    if (part.laminate) return planLaminated(part, context, options);
    const plan = withFaultContext(context, () => planStock(part, readStockOptions(part, options)));
    if (options.picture !== undefined) {
      const nesting = requireNesting(plan, '--picture');
      await writePicture(options, [file], `${part.name}: the board`, async () =>
        (await import('../../export/pictures/board-picture.ts')).composeBoard(part, plan, nesting),
      );
    }
    // If boards are given, the blanks do not come from the stock of the job.
    const fromStock = options.boardLength === undefined && options.boardWidth === undefined;
    const warnings = [...part.warnings, ...(fromStock ? blankWarnings(part, plan.blank) : [])];
    return {
      part,
      warnings,
      jsonWarnings: [...warnings, ...STOCK_CAUTIONS],
      json: () => asJson(part, plan),
      text: () => asText(part, plan),
    };
  },
});

/** A part that is bent from plies has no blank, and its grain follows the curve. */
function planLaminated(
  part: Part,
  context: FaultContext,
  options: OptionValues<typeof OPTIONS>,
): CommandAnswer {
  refuseForLaminated(options, ['grain', 'between', 'picture']);
  const sizes = readStockOptions(part, options);
  const plan = withFaultContext(context, () => planPlies(part, sizes));
  const warnings = [...part.warnings, ...plyStockWarnings(part, plan)];
  return {
    part,
    warnings,
    jsonWarnings: [...warnings, ...laminationCautions(part.rule.unit)],
    json: () => ({
      lamination: laminationJson(plan),
      resawing: resawingJson(plan),
      clamps: plan.clamps,
      mass: weighPart(part).partMass,
    }),
    text: () => laminatedStockText(part, plan),
  };
}

/** Sizes, board feet and mass are for one blank and one finished part, `inAll` for the whole quantity. */
function asJson(part: Part, plan: StockPlan): object {
  const { blank, layers, amount, nesting } = plan;
  return {
    blank,
    layers: layers?.map(layerJson),
    ...(amount && amountJson(amount, part.quantity)),
    nesting: nesting && nestingJson(nesting, layers?.[0]),
    grain: grainJson(plan),
  };
}

function amountJson({ weight, rough, ...amount }: WoodAmount, quantity: number): object {
  const massJson = (copies: number) =>
    weight && { mass: weight.part * copies, blankMass: weight.blank * copies };
  return {
    ...pick(amount, 'boardFeet', 'cubicMetres'),
    species: weight?.species.name,
    ...massJson(1),
    inAll: { quantity, ...rough, ...massJson(quantity) },
  };
}

const layerJson = ({ lumber, ...layer }: LayerChoice): object => ({
  count: layer.count,
  quarter: lumber.name,
  ...pick(lumber, 'rough', 'planed'),
  ...pick(layer, 'each', 'waste'),
});

function nestingJson(nesting: Nesting, layers: LayerChoice | undefined): object {
  const { board, gap, copiesOn, ways, rectangles, ...nested } = nesting;
  return {
    ...nested,
    rectanglePitch: rectangles.pitch,
    gap,
    board,
    boardFeet:
      layers && boardFeet({ ...board, thickness: layers.lumber.rough }) * layers.count * nested.boards,
    rectangles,
    ways,
    copies: copiesOn(1),
  };
}

function grainJson({ grain }: StockPlan): object {
  const { turn, worst, strength, section, better } = grain;
  return {
    turnDeg: degrees(turn),
    worstDeg: degrees(worst.angle),
    edge: worst.edge,
    ...placeJson(worst.at),
    strength: strength.least,
    strengthMost: strength.most,
    band: runoutGrade(grain).grade,
    ...(section && {
      sectionRatio: section.share,
      section: { ...placeJson(section.at), ...pick(section, 'height', 'weakened') },
    }),
    ...(better && {
      better: { turnDeg: degrees(better.turn), worstDeg: degrees(better.angle), blankWidth: better.width },
    }),
  };
}

function asText(part: Part, plan: StockPlan): string {
  const { rule, stock, quantity } = part;
  const { layers, nesting, kerf } = plan;
  const list = (title: string, lines: readonly string[]): string | false =>
    lines.length > 0 && [title, ...lines].join('\n  ');
  const rows = (title: string, table: readonly (readonly string[])[]): string | false =>
    table.length > 1 && list(title, textTable(table).split('\n'));
  const facts = [quantity > 1 && `quantity ${quantity}`, stock?.species].filter(Boolean).join(', ');
  const thickness = stock?.thickness === undefined ? '' : showLength(stock.thickness, rule);
  const { turn } = plan.grain;
  const grain =
    turn === 0 ? 'Grain along the reference line' : `Grain at ${showAngle(turn)} to the reference line`;
  return present(
    [part.name, facts].filter(Boolean).join('\n'),
    list('Blank', describeBlank(part, plan)),
    layers && rows(`Thickness: ${thickness}`, layerRows(layers, rule)),
    layers?.length === 0 && 'Rough boards are not sold this thick. Glue up the part from more layers.',
    list('Wood', describeAmount(part, plan)),
    nesting &&
      rows(
        `Layout on boards of ${showSizes([nesting.board.length, nesting.board.width], rule)}, with a kerf of ${showLength(kerf, rule)}`,
        nestingRows(plan, rule),
      ),
    list(grain, describeGrain(plan, rule)),
    safetyText(STOCK_CAUTIONS),
  ).join('\n\n');
}
