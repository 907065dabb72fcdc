import './style/theme.css';
import './style/page.css';
import './style/drawing.css';
import { safetyNote, signalled } from '../shop/words/safety.ts';
import type { Unit } from '../units/unit.ts';
import { ApexLabels } from './canvas/apex-labels.ts';
import { ComparisonLayer } from './canvas/comparison-layer.ts';
import { HandleLayer } from './canvas/handle-layer.ts';
import { Highlight } from './canvas/highlight.ts';
import { NailTools } from './canvas/nail-tools.ts';
import { PartLayer } from './canvas/part-layer.ts';
import { PointerDrag } from './canvas/pointer-drag.ts';
import { ReadingsLayer } from './canvas/readings-layer.ts';
import { RuleLayer } from './canvas/rule-layer.ts';
import { SheetLayer } from './canvas/sheet-layer.ts';
import { Viewport } from './canvas/viewport.ts';
import { byId } from './dom.ts';
import { loadPageFont } from './embedded-font.ts';
import { bindKeyboard } from './keyboard.ts';
import { CurvePanel } from './panels/curve-panel.ts';
import { DownloadsPanel } from './panels/downloads-panel.ts';
import { EndsPanel } from './panels/ends-panel.ts';
import { FigurePanel } from './panels/figure-panel.ts';
import { JobTextPanel } from './panels/job-text-panel.ts';
import { JointsPanel } from './panels/joints-panel.ts';
import { PartPanel } from './panels/part-panel.ts';
import { PointFields } from './panels/point-fields.ts';
import { StandingPanel } from './panels/standing-panel.ts';
import { FIRST_JOB, FileStatus, JobFiles } from './state/job-files.ts';
import { Store } from './state/store.ts';

/** A longer part has its notes below the drawing, a stouter one beside it. */
const LONG_ASPECT = 2.2;
/** Lay out the page again when the aspect ratio changes by more than this factor. */
const RELAYOUT_RATIO = 1.5;
/** On a low screen (a phone in landscape, a page at 200%) the notes are beside any part. */
const LOW_SCREEN = matchMedia('(max-height: 35em)');
const LIGHT_KEY = 'fairlath.light';
const PAGE_SAFETY = ['general-first', 'general-strength'] as const;
const unitRadios = document.querySelectorAll<HTMLInputElement>('input[name="unit"]');

const store = new Store(FIRST_JOB);
const viewport = new Viewport(byId('drawing'), store.shown.part.bounds);
const ruleLayer = new RuleLayer(viewport, store);
const partLayer = new PartLayer(viewport, store);
const handleLayer = new HandleLayer(viewport, store, ruleLayer);
const highlight = new Highlight(viewport, store);
const sheetLayer = new SheetLayer(viewport, store, () => figurePanel.draw());
const figurePanel = new FigurePanel(store, sheetLayer, highlight);
new StandingPanel(store);
const fileStatus = new FileStatus(store);
const jobFiles = new JobFiles(store, fileStatus);
new ApexLabels(viewport, store);
new PointerDrag(viewport, store, handleLayer, new NailTools(viewport, store, handleLayer));
new PointFields(byId('points'), store, handleLayer);
new CurvePanel(store);
new EndsPanel(store);
new JointsPanel(store);
new PartPanel(store);
new JobTextPanel(store, highlight);
new ComparisonLayer(viewport, store, highlight);
new ReadingsLayer(viewport, store, highlight);
new DownloadsPanel(store, sheetLayer, fileStatus);
bindKeyboard(store, jobFiles);
bindThemeSwitch();
bindViewControls();
LOW_SCREEN.addEventListener('change', layOutPage);
let job: number | undefined;
let unit: Unit | undefined;
let laidOutFor = aspect();
store.onChange(() => {
  if (store.jobNumber !== job) showNewJob();
  if (store.rule.unit !== unit) showUnit(store.rule.unit);
});
store.onIdle(() => {
  // A part must not move away under a drag.
  if (!store.evaluated || store.previewText !== undefined) return;
  const change = aspect() / laidOutFor;
  if (Math.max(change, 1 / change) > RELAYOUT_RATIO) layOutPage();
  viewport.keepInSight(store.evaluated.part.bounds);
});
store.notify();
void loadPageFont();
byId('safety').textContent = PAGE_SAFETY.map((id) => signalled(safetyNote(id))).join(' ');

function showNewJob(): void {
  job = store.jobNumber;
  figurePanel.clear();
  sheetLayer.clear();
  layOutPage();
  viewport.fit(store.evaluated?.part.bounds);
}

function layOutPage(): void {
  laidOutFor = aspect();
  document.documentElement.classList.toggle('long', laidOutFor > LONG_ASPECT && !LOW_SCREEN.matches);
  document.body.style.setProperty('--aspect', laidOutFor.toFixed(2));
}

function aspect(): number {
  const { left, right, bottom, top } = store.shown.part.bounds;
  return (right - left) / Math.max(top - bottom, 1);
}

function showUnit(now: Unit): void {
  unit = now;
  for (const radio of unitRadios) radio.checked = radio.value === now;
  ruleLayer.draw();
}

function bindViewControls(): void {
  byId('nearer').addEventListener('click', () => viewport.zoom(1.5));
  byId('farther').addEventListener('click', () => viewport.zoom(1 / 1.5));
  byId('whole').addEventListener('click', () => viewport.fit(store.evaluated?.part.bounds));
  const comb = byId<HTMLInputElement>('show-comb');
  comb.addEventListener('change', () => partLayer.showComb(comb.checked));
  for (const radio of unitRadios)
    radio.addEventListener('change', () => store.showIn(radio.value === 'mm' ? 'mm' : 'in'));
}

/** Light or dark: as the device has it, unless the switch says otherwise. */
function bindThemeSwitch(): void {
  const choice = byId<HTMLSelectElement>('light');
  const apply = (): void => {
    document.documentElement.dataset.light = choice.value;
  };
  try {
    choice.value = localStorage.getItem(LIGHT_KEY) ?? 'device';
  } catch {
    // The browser stores nothing; the switch works all the same.
  }
  choice.addEventListener('change', () => {
    apply();
    try {
      localStorage.setItem(LIGHT_KEY, choice.value);
    } catch {}
  });
  apply();
}
