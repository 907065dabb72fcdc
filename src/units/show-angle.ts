/** An angle in degrees, to a tenth, finer than a saw's scale: "6°", "7.5°", "-4°". */
export const showAngle = (radians: number): string =>
  `${Number(((radians * 180) / Math.PI).toFixed(1)) + 0}°`;
