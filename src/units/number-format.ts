/** A share as people say it: "0.43 %", with the space that ISO 80000-1 and the SI brochure put before the sign. */
export const showPercent = (share: number, places: number): string => `${(share * 100).toFixed(places)} %`;
