export { apply, inverse } from '../curves/affine.ts';
