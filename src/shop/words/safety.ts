import type { Warning } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import type { Unit } from '../../units/unit.ts';

/**
 * `warning`: it can hurt a person. `caution`: it can spoil work. One signal word for each level of risk is the usage of
 * ANSI Z535.6 and ISO 3864-2. They grade injuries further, and have a word of their own for damage: fairlath needs two.
 */
export type SafetyLevel = 'warning' | 'caution';

/** The unit that a maker reads; both where it is not known. */
type SafetyUnit = Unit | 'both';
type Lengths = (inches: string, millimeters: string) => string;

interface SafetyText {
  readonly level: SafetyLevel;
  readonly words: (length: Lengths) => string;
}

const warning = (words: string | SafetyText['words']): SafetyText => ({
  level: 'warning',
  words: typeof words === 'string' ? () => words : words,
});
const caution = (words: string): SafetyText => ({ level: 'caution', words: () => words });

/**
 * Each safety sentence of the project, once. `docs/safety.md` gathers them by machine and task. An id with a point is
 * the code that an answer in JSON carries.
 *
 * The guide and the guard are two parts of a band saw; 29 CFR 1910.213(i) is the US rule for employers. The distances
 * of the guide and of the fingers are common practice (manuals of band saws, school sheets), as are the others.
 */
const SAFETY = {
  'general-first': warning(
    'Follow the manuals of your machines, local codes and licensed practice. They come before anything that fairlath says.',
  ),
  'general-strength': warning(
    'fairlath draws curves. It does not check whether a part is strong enough to sit on, lean on or stand under.',
  ),
  'general-people': warning('Local codes, not this pattern, set the sizes of seats, stairs and railings.'),
  'machine-manual': warning('Follow the manual of the machine that cuts the part.'),
  'pattern-measure': caution('Measure the check distances on the cover before you cut any wood.'),
  'pattern-scrap': caution('Fasten the pattern so that it cannot move. Try the shape in scrap first.'),
  'pattern-angles': caution('Try both angles in scrap of the same section.'),
  'saw.manual': warning(
    'Follow the manual of your saw and your local rules first. Unplug the saw before you change or adjust the blade.',
  ),
  'saw.fingers': warning(
    (length) =>
      `Keep your fingers ${length('4"', '100 mm')} or more from the blade and out of its path. Finish the cut with a push block.`,
  ),
  'saw.guide': warning(
    (length) =>
      `Set the upper guide within ${length('1/2"', '12 mm')} of the work. Keep the guard over the part of the blade that is not cutting.`,
  ),
  'saw.back-out': warning(
    'Do not back out of a long curve with the saw running, and do not twist the blade. ' +
      'Stop the saw, or cut out through the waste.',
  ),
  'saw.leaning': warning(
    'An angled cut pulls the part along the miter gauge. Clamp the part to the miter gauge. ' +
      'Put a stop on the side that you keep, not on the offcut.',
  ),
  'saw-offcut': warning('Make sure that the offcut can move away from the blade and cannot bind.'),
  'saw.short': warning(
    'Do not hold a short part by hand. Saw it from a larger board, or clamp it to a sled or to a larger board.',
  ),
  'saw-support': warning('Support a long board on both sides of the saw.'),
  'saw.wear': warning('Wear eye and ear protection. Use dust collection or wear a dust mask.'),
  'saw.stop': warning('Let the blade stop before you clear offcuts away.'),
  'drill-slope': warning(
    'Follow the manual of your drill press. Clamp the wedge and the work to the table. ' +
      'Start the bit slowly, because it can skid on a slope.',
  ),
  'router-manual': warning(
    'Follow the manuals of the router and of the bit, also for the speed of the bit. ' +
      'Unplug the router before you change the bit.',
  ),
  'router-hold': warning(
    'Fix the template to the work, and clamp the work. ' +
      'Check that the guide bushing or bearing is tight and centered on the bit.',
  ),
  'router-feed': warning(
    'Feed against the rotation of the bit. With a hand-held router, go counterclockwise around a part and clockwise ' +
      'inside an opening. On a router table, go the other way.',
  ),
  'router-passes': warning(
    'Saw close to the finished line first. Take light passes, and lighter ones where the grain turns against the bit. ' +
      'Let the bearing or the bushing touch a lead-in piece before the bit touches the wood. ' +
      'Do not start the cut at a corner of the part.',
  ),
  'form-force': warning(
    'Bent plies and straps store force. Stand clear of their ends when you clamp and release them. ' +
      'Wear gloves and eye protection.',
  ),
  'form-glue': caution(
    'Leave the work on the form for as long as the glue maker says. Dried glue chips plane irons: scrape it off first.',
  ),
  'ply-saw': warning(
    'Do not trap a thin ply between the blade and the fence of a table saw. ' +
      'Saw it off on the side away from the fence, or use a band saw. Finish the cut with a push block.',
  ),
  'ply-plane': warning(
    'Do not plane a ply that is thinner or shorter than the manual of the planer allows. ' +
      'Fix it to a carrier board, or use a drum sander.',
  ),
  'strip.spring': warning(
    'A bent batten springs back hard when you release it. Wear eye protection, and hold the batten down while you pull ' +
      'each nail.',
  ),
  'batten-splinters': warning(
    'A batten that snaps throws splinters. Wear eye protection, and keep your face out of the plane of the bend.',
  ),
  'strip.grain': caution('The figures are for clear, straight grain. Choose a batten without knots.'),
  'strip.friction': caution(
    'Friction at the nails can hold a batten off its curve by about 1% of its rise. ' +
      'Tap the batten along its length until it settles.',
  ),
  'strip.creep': caution(
    'A batten that stays bent for long keeps some of the bend. Trace the curve, then release the batten.',
  ),
  'strip.tips': caution(
    'A batten that is as thick as it is wide, or thicker, can bend away from the board. Use a wider batten.',
  ),
  'strip.taper': caution(
    'A tapered batten slides between its nails, thick end first. Put a stop at the thick end.',
  ),
  'stock.guidance': warning(
    'The strength figures are for clear, dry wood. Use them only to compare layouts: they are not a structural design. ' +
      'Furniture that carries people must be tested, and must follow local codes and licensed practice.',
  ),
  'stock.measure': caution(
    'Planed thickness differs from one lumber yard to another. Measure the boards before you buy.',
  ),
} as const satisfies Record<string, SafetyText>;

export type SafetyId = keyof typeof SAFETY;
export const SAFETY_IDS = Object.keys(SAFETY) as readonly SafetyId[];

/** A safety sentence, or what was found in this part, with its level. */
export interface SafetyNote extends Warning {
  readonly level: SafetyLevel;
}

const LENGTHS: Readonly<Record<SafetyUnit, Lengths>> = {
  in: (inches) => inches,
  mm: (_, millimeters) => millimeters,
  both: (inches, millimeters) => `${inches} (${millimeters})`,
};

export const safetyWords = (id: SafetyId, unit: SafetyUnit = 'both'): string =>
  SAFETY[id].words(LENGTHS[unit]);

export const safetyNote = (id: SafetyId, unit?: SafetyUnit): SafetyNote => ({
  code: id,
  level: SAFETY[id].level,
  message: safetyWords(id, unit),
});

export const SIGNAL_WORDS: Readonly<Record<SafetyLevel, string>> = { warning: 'Warning', caution: 'Caution' };

/** "Warning: Set the upper guide within 1/2\" of the work. …". */
export const signalled = ({ level, message }: Omit<SafetyNote, 'code'>): string =>
  `${SIGNAL_WORDS[level]}: ${message}`;

/** Under "Warning" and "Caution", each where it has notes. */
export const safetySections = (
  notes: readonly SafetyNote[],
): { readonly title: string; readonly messages: readonly string[] }[] =>
  present(
    ...(['warning', 'caution'] as const).map((level) => {
      const messages = notes.filter((note) => note.level === level).map(({ message }) => message);
      return messages.length > 0 && { title: SIGNAL_WORDS[level], messages };
    }),
  );
