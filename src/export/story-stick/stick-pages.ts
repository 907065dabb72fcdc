import type { Page } from '../drawing/drawing.ts';
import { coverThenSheets, type PatternPages } from '../sheets/pattern-pages.ts';
import type { LaidStoryStick } from './stick-layout.ts';
import { storyStickPage } from './stick-page.ts';

/** The sheets of a story stick. Each says how to join and read its rows, so that the stick needs no cover. */
export const composeStoryStick = (stick: LaidStoryStick): Generator<Page> => storyStickPages(stick).pages;

export const storyStickPages = (stick: LaidStoryStick): PatternPages =>
  coverThenSheets([], stick.layout, (sheet) => storyStickPage(stick, sheet));
