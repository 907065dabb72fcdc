import { partOf } from '../part/jobs.ts';

/** A leg of the hall bench that stands splayed, with joints of every kind. */
export const LEG = `part: Hall bench back leg
units: in
quantity: 2
pair: mirrored
stock: {species: white oak, length: 36, width: 4, thickness: 1 3/4}
edges:
  front:
    - from: [0, 0]
    - line: [34, 0]
  back:
    - from: [0, 1 5/8]
    - batten: [34, 2]
      through: [12, 3 1/4]
ends:
  left: {rake: 6, splay: 4}
  right: {rake: 6, splay: 4}
joints:
  - mortise: {at: 16 1/2, out: 1 1/2, length: 2 1/2, width: 3/8, depth: 1 1/4, label: seat rail}
  - mortise: {at: 5, out: 1, length: 2, width: 3/8, depth: 1}
  - hole: {at: 28, out: 1 1/2, diameter: 3/8, depth: 1, lean: 2, toward: left, label: stretcher}
  - slot: {at: 24, out: 1, length: 1 1/2, width: 1/4}
  - mark: {at: 17, label: seat line}
  - mark: {at: 10, out: 1, label: plug}
  - center-line: {out: 1}
  - center-line: {at: 20}
allowance:
  saw: 1/16
`;

/** A rail of the wall shelf, mitred at both ends. */
export const RAIL = `part: Wall shelf rail
units: mm
quantity: 2
pair: mirrored
stock: {length: 700, width: 120, thickness: 20}
edges:
  lower:
    - from: [0, 0]
    - line: [640, 0]
  upper:
    - from: [0, 90]
    - line: [640, 90]
ends:
  left: {miter: -45}
  right: {miter: 45}
allowance: {saw: 2}
`;

export const leg = () => partOf(LEG);
export const rail = () => partOf(RAIL);
