/** A sheet size, mm, standing upright. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}
