import type { Box } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';

/** How the part lies on the screen: pixels, y down, one scale both ways. */
export interface ViewTransform {
  readonly width: number;
  readonly height: number;
  /** Pixels a millimetre. */
  readonly scale: number;
  /** Where station 0, offset 0 lies. */
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

/** The whole of a box, as large as the room inside some margins lets it be, in its middle. */
export function fitView(box: Box, width: number, height: number, margins: Box): ViewTransform {
  const [across, up] = [width - margins.left - margins.right, height - margins.top - margins.bottom];
  const scale = Math.min(
    Math.max(across, 1) / Math.max(box.right - box.left, 1),
    Math.max(up, 1) / Math.max(box.top - box.bottom, 1),
  );
  return {
    width,
    height,
    scale,
    origin: {
      x: margins.left + (across - (box.left + box.right) * scale) / 2,
      y: margins.top + (up + (box.bottom + box.top) * scale) / 2,
    },
  };
}

/** A tenth of a millimetre as wide as a finger, and the longest length there is, 1 km, on a phone. */
const [MAX_SCALE, MIN_SCALE] = [400, 1e-4];

/** Nearer or farther by a factor, about a place on the screen. */
export function zoomView(view: ViewTransform, about: Point, factor: number): ViewTransform {
  const scale = Math.min(Math.max(view.scale * factor, MIN_SCALE), MAX_SCALE);
  const k = scale / view.scale;
  const origin = {
    x: about.x + (view.origin.x - about.x) * k,
    y: about.y + (view.origin.y - about.y) * k,
  };
  return { ...view, scale, origin };
}

/** The view moved, in pixels. */
export const panView = (view: ViewTransform, x: number, y: number): ViewTransform => ({
  ...view,
  origin: { x: view.origin.x + x, y: view.origin.y + y },
});
