import { endLean } from '../../part/ends/end-lean.ts';
import type { Part } from '../../part/part.ts';
import { planPlies } from '../../shop/plies/plan-plies.ts';
import { adviseSawing, type Sawing } from '../../shop/saw/advise-sawing.ts';
import type { Bend } from '../../shop/saw/bends-and-corners.ts';
import { type EndSetUp, endSetUp, leanOfBlade } from '../../shop/saw/end-set-up.ts';
import { COMMON_HEIGHT_MM } from '../../shop/saw/saw-depth.ts';
import { missingWeightWarnings } from '../../shop/stock/weight.ts';
import { cutOrder } from '../../shop/words/cut-order.ts';
import { describeBlade } from '../../shop/words/describe-blade.ts';
import { describeEnd } from '../../shop/words/describe-ends.ts';
import { laminationCautions } from '../../shop/words/describe-lamination.ts';
import { describeSupport } from '../../shop/words/describe-support.ts';
import type { SafetyNote } from '../../shop/words/safety.ts';
import { sawCautions, tooHighForSaw } from '../../shop/words/saw-cautions.ts';
import { type LengthFormat, lengthFormat } from '../../units/graduation.ts';
import { capitalize, degrees } from '../../units/number-format.ts';
import { jobCommand } from '../define-command.ts';
import { writePicture } from '../files/atomic-write.ts';
import { atOption, type OptionValues, readLengths, refuseForLaminated } from '../options/option-spec.ts';
import { readSaws, requireBlade, SAW_OPTIONS } from '../options/saw-options.ts';
import { forceOption, pictureOption } from '../options/shared-options.ts';
import { laminatedSawText, laminationJson, resawingJson } from '../output/lamination-output.ts';
import {
  anglesJson,
  type CommandAnswer,
  pick,
  placeJson,
  safetyText,
  textTable,
} from '../output/print-answer.ts';
import { type FaultContext, withFaultContext } from '../output/report-errors.ts';

const OPTIONS = [
  ...SAW_OPTIONS,
  pictureOption('also draw the board on the saw: bends, stands, order of cuts'),
  forceOption,
] as const;

export const makeCommand = jobCommand({
  name: 'saw',
  summary: 'blade, depth of cut, support, order of cuts',
  description:
    'Plan the sawing: the widest band-saw blade that can follow the curve, the support and the order of cuts. Also list ' +
    'the depth of cut and the saw settings for each end.',
  options: OPTIONS,
  notes: [
    'The smallest radius for each blade width is common practice. Published charts differ, so fairlath uses the most ' +
      'cautious figure of each. The default sizes are those of common saws, from memory. Measure your own saw.',
  ],
  files: 'Reads JOB. Writes the SVG that --picture names.',
  safety: ['saw.manual', 'saw.guide', 'saw.fingers', 'saw-support', 'saw.back-out', 'saw.wear'],
  examples: [
    'fairlath saw samples/hall-bench-leg.yaml',
    'fairlath saw samples/hall-bench-leg.yaml --picture saw.svg',
    'fairlath saw samples/wall-shelf-bracket.yaml --blade 13 --kerf 1.1 --blade-thickness 0.6',
    'fairlath saw samples/garden-arch-rail.yaml --table 400x500 --depth-of-cut 79',
    'fairlath saw --curve arc --chord 12 --rise 4 --blade 3/4',
  ],
  validate: requireBlade,
  run: async ({ part, context, file }, options) => {
    if (part.laminate) return planLaminated(part, context, options);
    const words = lengthFormat(part.rule);
    const sawing = withFaultContext(context, () =>
      atOption('--blade', () => adviseSawing(part, readSaws(options, words.unit))),
    );
    await writePicture(options, [file], `${part.name}: the saw`, async () =>
      (await import('../../export/pictures/saw-picture.ts')).composeSawPicture(part, sawing),
    );
    // These warnings name keys of the job, and a quick line has none.
    const warnings = [...part.warnings, ...(file === undefined ? [] : missingWeightWarnings(part))];
    const cautions = sawCautions(part, sawing, words);
    return {
      part,
      warnings,
      jsonWarnings: [...warnings, ...cautions],
      json: () => asJson(part, sawing),
      text: () => asText(part, sawing, cautions, words),
    };
  },
});

/** The plies are sawn, not the curve. */
function planLaminated(
  part: Part,
  context: FaultContext,
  options: OptionValues<typeof OPTIONS>,
): CommandAnswer {
  refuseForLaminated(options, ['bladeThickness', 'depthOfCut', 'depthAt45', 'table', 'picture']);
  const { unit } = part.rule;
  const { kerf } = readLengths(options, ['kerf'], unit);
  const { height = COMMON_HEIGHT_MM } = readSaws(options, unit);
  const plan = withFaultContext(context, () => planPlies(part, kerf === undefined ? {} : { kerf }));
  const cautions = [
    ...tooHighForSaw(plan.resawing.width ?? 0, height, lengthFormat(part.rule)),
    ...laminationCautions(unit),
  ];
  return {
    part,
    jsonWarnings: [...part.warnings, ...cautions],
    json: () => ({
      ends: part.ends?.map((end) => ({ side: end.side, ...anglesJson(end.angles) })),
      lamination: laminationJson(plan),
      resawing: resawingJson(plan),
      clamps: plan.clamps,
    }),
    text: () => laminatedSawText(part, plan, cautions),
  };
}

function asJson(
  part: Part,
  { ends, edges, blade, weights, support, tableSaw, height, table }: Sawing,
): object {
  return {
    ends: ends.map(({ end, needs, reach, passes }) => ({
      side: end.side,
      ...anglesJson(end.angles),
      ...endLean(end, part),
      setUp: setUpJson(endSetUp(end, edges)),
      bladeDepth: needs ?? null,
      bladeReach: reach,
      passes: passes ?? null,
    })),
    tableSaw: { depthOfCut: tableSaw.depth, depthAt45: tableSaw.depthAt45 ?? null },
    blade: bladeJson(blade),
    support: {
      mass: weights.partMass ?? weights.boardMass ?? null,
      balanceStation: weights.balance.x,
      stands: support.stands.map(({ station }) => station),
      boardMass: weights.boardMass ?? null,
      boardBalanceStation: weights.boardBalance.x,
      standsAt: support.stands,
      ...pick(support, 'tips', 'swing'),
      table,
      height,
    },
  };
}

const setUpJson = (setUp: EndSetUp): object => ({
  edge: setUp.edge ?? null,
  swingDeg: degrees(setUp.swing),
  tiltDeg: degrees(setUp.tilt),
  bladeLeans: leanOfBlade(setUp) ?? null,
});

function bladeJson({ hollows, rounds, widest, corners, ownBlade }: Sawing['blade']): object {
  const at = (bend: Bend) => ({ ...placeJson(bend.at), edge: bend.edge });
  const [hollow, round] = [hollows[0], rounds[0]];
  return {
    tightestConcave: hollow?.radius ?? null,
    tightestConvex: round?.radius ?? null,
    widest: widest?.width ?? null,
    tightestConcaveAt: hollow ? at(hollow) : null,
    tightestConvexAt: round ? at(round) : null,
    tightestConcavePlaces: hollows.map(at),
    tightestConvexPlaces: rounds.map(at),
    corners: corners.map((corner) => ({
      ...pick(corner, 'kind', 'ofShoulder'),
      ...placeJson(corner.at),
      turnDeg: degrees(corner.turn),
      edge: corner.edge,
    })),
    asked: ownBlade && {
      width: ownBlade.width,
      leastRadius: ownBlade.minRadius,
      turns: ownBlade.tooTight.length === 0,
      tooTight: ownBlade.tooTight.map((bend) => ({ ...pick(bend, 'kind', 'radius'), ...at(bend) })),
    },
  };
}

function asText(part: Part, sawing: Sawing, cautions: readonly SafetyNote[], words: LengthFormat): string {
  const { blade, ends, weights, support, table } = sawing;
  const { sawAllowance: out } = part;
  const line = out > 0 ? `, for the saw line ${words.rounded(out)} outside the finished line` : '';
  const block = (title: string, lines: readonly string[]): string => [title, ...lines].join('\n  ');
  const order = cutOrder(part, sawing, words).map((step, i) => `${i + 1}. ${step}`);
  return [
    part.name,
    block(`Band-saw blade${line}:`, describeBlade(blade, words)),
    ...ends.map((cut) => {
      const rows = describeEnd(part, cut, sawing, words).map((row) => [row.label, row.words]);
      return block(`${capitalize(cut.end.side)} end:`, textTable(rows, { align: 'left' }).split('\n'));
    }),
    block('Support:', describeSupport(weights, support, table, words)),
    block('Order of cuts:', order),
    safetyText(cautions),
  ].join('\n\n');
}
