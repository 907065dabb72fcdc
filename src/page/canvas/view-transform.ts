import type { Box } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';

/** How the part is shown: pixels, y down, one scale both ways. */
export interface ViewTransform {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  /** Where station 0, offset 0 is. */
  readonly origin: Point;
}

export const toScreen = ({ scale, origin }: ViewTransform, { x, y }: Point): Point => ({
  x: origin.x + x * scale,
  y: origin.y - y * scale,
});

export const toPart = ({ scale, origin }: ViewTransform, { x, y }: Point): Point => ({
  x: (x - origin.x) / scale,
  y: (origin.y - y) / scale,
});

/** The view that shows a whole box, centered inside the margins. */
export function fitView(box: Box, width: number, height: number, margins: Box): ViewTransform {
  const [across, up] = [width - margins.left - margins.right, height - margins.top - margins.bottom];
  const scale = Math.min(
    Math.max(across, 1) / Math.max(box.right - box.left, 1),
    Math.max(up, 1) / Math.max(box.top - box.bottom, 1),
  );
  const x = margins.left + (across - (box.left + box.right) * scale) / 2;
  const y = margins.top + (up + (box.bottom + box.top) * scale) / 2;
  return { width, height, scale, origin: { x, y } };
}

/** From 0.1 mm as wide as a finger to the longest length there is, 1 km, on a phone. */
const [MAX_SCALE, MIN_SCALE] = [400, 1e-4];

/** Zooms about a place on the screen. */
export function zoomView(view: ViewTransform, about: Point, factor: number): ViewTransform {
  const scale = Math.min(Math.max(view.scale * factor, MIN_SCALE), MAX_SCALE);
  const k = scale / view.scale;
  const [x, y] = [about.x + (view.origin.x - about.x) * k, about.y + (view.origin.y - about.y) * k];
  return { ...view, scale, origin: { x, y } };
}

/** Moves the view by x and y on the screen, px. */
export const panView = (view: ViewTransform, x: number, y: number): ViewTransform => ({
  ...view,
  origin: { x: view.origin.x + x, y: view.origin.y + y },
});
