import './style/theme.css';
import './style/page.css';
import './style/drawing.css';
import type { Unit } from '../units/unit.ts';
import { ApexNotes } from './canvas/apex-labels.ts';
import { Beside } from './canvas/comparison-layer.ts';
import { Handles } from './canvas/handle-layer.ts';
import { Places } from './canvas/highlight.ts';
import { Nails } from './canvas/nail-tools.ts';
import { Drawing } from './canvas/part-layer.ts';
import { Drag } from './canvas/pointer-drag.ts';
import { Measured } from './canvas/readings-layer.ts';
import { RuleLayer } from './canvas/rule-layer.ts';
import { Sheets } from './canvas/sheet-layer.ts';
import { Stage } from './canvas/viewport.ts';
import { byId } from './dom.ts';
import { setType } from './embedded-font.ts';
import { stepsAndKeys } from './keyboard.ts';
import { Takeaway } from './panels/downloads-panel.ts';
import { FigurePanel } from './panels/figure-panel.ts';
import { TextPanel } from './panels/job-text-panel.ts';
import { SetOut } from './panels/point-fields.ts';
import { lightSwitch } from './panels/theme-switch.ts';
import { FileSaid } from './state/file-status.ts';
import { FIRST, Shelf } from './state/job-files.ts';
import { Bench } from './state/store.ts';

/** A part longer than so many times its width has its notes below it, a stout one beside it. */
const LONG = 2.2;
/** A part so many times as long for its width, or as stout, has become another: the page is laid out anew for it. */
const ANOTHER_SHAPE = 1.5;
/** On a low screen (a phone that lies, a page seen at 200 %) the notes stand beside any part. */
const LOW = matchMedia('(max-height: 35em)');

const bench = new Bench(FIRST);
const stage = new Stage(byId('drawing'), bench.made!.part.bounds);
const rules = new RuleLayer(stage, bench);
const drawing = new Drawing(stage, bench);
const handles = new Handles(stage, bench, rules);
const places = new Places(stage, bench);
const sheets = new Sheets(stage, bench, () => figures.draw());
const figures = new FigurePanel(bench, sheets, places);
const said = new FileSaid(bench);
const shelf = new Shelf(bench, said);
new ApexNotes(stage, bench);
new Drag(stage, bench, handles, new Nails(stage, bench, handles));
new SetOut(byId('points'), bench, handles);
new TextPanel(bench, places);
new Beside(stage, bench, places);
new Measured(stage, bench, places);
new Takeaway(bench, sheets, said);
stepsAndKeys(bench, shelf);
lightSwitch();
looks();
LOW.addEventListener('change', shaped);
let job: number | undefined;
let unit: Unit | undefined;
let laidOutFor = aspect();
bench.changed(() => {
  if (bench.job !== job) started();
  if (bench.rule.unit !== unit) measuredIn(bench.rule.unit);
});
bench.rests(() => {
  // A hand that still holds something must not have the part moved away under it.
  if (!bench.made || bench.tried !== undefined) return;
  const change = aspect() / laidOutFor;
  if (Math.max(change, 1 / change) > ANOTHER_SHAPE) shaped();
  stage.keepInSight(bench.made.part.bounds);
});
bench.tell();
void setType();

/** Another part lies on the bench: it is drawn whole, and the page is laid out for its shape. */
function started(): void {
  job = bench.job;
  figures.forget();
  sheets.forget();
  shaped();
  stage.fit(bench.made?.part.bounds);
}

function shaped(): void {
  laidOutFor = aspect();
  document.documentElement.classList.toggle('long', laidOutFor > LONG && !LOW.matches);
  document.body.style.setProperty('--aspect', laidOutFor.toFixed(2));
}

/** The part's length over its width. */
function aspect(): number {
  const { left, right, bottom, top } = bench.made!.part.bounds;
  return (right - left) / Math.max(top - bottom, 1);
}

/** The switch and the rules show the unit that the job is in, or the one that was asked for. */
function measuredIn(now: Unit): void {
  unit = now;
  for (const radio of units()) radio.checked = radio.value === now;
  rules.draw();
}

function units(): NodeListOf<HTMLInputElement> {
  return document.querySelectorAll('input[name="unit"]');
}

function looks(): void {
  byId('nearer').addEventListener('click', () => stage.zoom(1.5));
  byId('farther').addEventListener('click', () => stage.zoom(1 / 1.5));
  byId('whole').addEventListener('click', () => stage.fit(bench.made?.part.bounds));
  const comb = byId<HTMLInputElement>('show-comb');
  comb.addEventListener('change', () => drawing.showComb(comb.checked));
  for (const radio of units())
    radio.addEventListener('change', () => bench.showIn(radio.value === 'mm' ? 'mm' : 'in'));
}
