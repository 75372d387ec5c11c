/** A figure of a published source beside what this project makes of it. Tests and the validation report read the same lists. */
export interface PublishedCheck {
  /** Check of physics (S1 to S6) or of quality, and the figure. */
  about: string;
  source: string;
  unit: string;
  published: number;
  /** Greatest difference that passes, in the unit. */
  tolerance: number;
  ours(): number;
}

/** A greatest error over many places, which a closed form would have as zero; `tolerance` is the share that passes. */
export function errorCheck(about: string, source: string, tolerance: number, ours: () => number): PublishedCheck {
  return { about, source, unit: 'greatest relative error', published: 0, tolerance, ours };
}
