// Finds the nail that puts the apex of a batten at a given place.
import { batten, parseLength, readOnRule } from 'fairlath';

const rule = { unit: 'in', graduation: { numerator: 1, denominator: 32 } };
const inches = (typed) => parseLength(typed, 'in');

const from = { x: 0, y: 0 };
const to = { x: inches('28'), y: 0 };
const curve = batten(from, to, { apex: { x: inches('12'), y: inches('3/4') } });

const [, nail] = curve.pins;
const read = (mm) => readOnRule(mm, rule).text;
console.log(`Apex at 12", rise 3/4": drive the nail at ${read(nail.x)}", ${read(nail.y)}" high.`);
