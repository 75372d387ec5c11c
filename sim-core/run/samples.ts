import { SAMPLE_FIELDS, type Sample, type SampleField, type Samples } from './types.ts';

export function createSamples(capacity = 4800): Samples {
  const columns = {} as Record<SampleField, Float64Array>;
  for (const field of SAMPLE_FIELDS) columns[field] = new Float64Array(capacity);
  return { length: 0, columns };
}

export function createSample(): Sample {
  const sample = {} as Sample;
  for (const field of SAMPLE_FIELDS) sample[field] = 0;
  return sample;
}

/** Appends one tick; the columns double when full. */
export function appendSample(samples: Samples, sample: Readonly<Sample>): void {
  const { columns, length } = samples;
  if (length >= columns.xMm.length) {
    for (const field of SAMPLE_FIELDS) {
      const grown = new Float64Array(columns[field].length * 2 + 1);
      grown.set(columns[field]);
      columns[field] = grown;
    }
  }
  columns.xMm[length] = sample.xMm;
  columns.yMm[length] = sample.yMm;
  columns.standOffMm[length] = sample.standOffMm;
  columns.speedMmPerS[length] = sample.speedMmPerS;
  columns.headingRad[length] = sample.headingRad;
  columns.travelAngleDeg[length] = sample.travelAngleDeg;
  columns.workAngleDeg[length] = sample.workAngleDeg;
  columns.arcState[length] = sample.arcState;
  columns.arcVoltageV[length] = sample.arcVoltageV;
  columns.sparkAngleDeg[length] = sample.sparkAngleDeg;
  columns.underMm3PerS[length] = sample.underMm3PerS;
  columns.topMm3PerS[length] = sample.topMm3PerS;
  columns.throughFraction[length] = sample.throughFraction;
  columns.blowbackMj[length] = sample.blowbackMj;
  columns.severedMm[length] = sample.severedMm;
  columns.penetration[length] = sample.penetration;
  columns.meanDepthMm[length] = sample.meanDepthMm;
  columns.conductedW[length] = sample.conductedW;
  columns.doubleArcShare[length] = sample.doubleArcShare;
  columns.arcLeanDeg[length] = sample.arcLeanDeg;
  columns.spentLife[length] = sample.spentLife;
  columns.restrikes[length] = sample.restrikes;
  samples.length = length + 1;
}
