import { enBench } from './en-bench.ts';
import { enBuilder } from './en-builder.ts';
import { enCautions } from './en-cautions.ts';
import { enDemoYard } from './en-demo-yard.ts';
import { enDesk } from './en-desk.ts';
import { enFaultFinding } from './en-fault-finding.ts';
import { enHelp } from './en-help.ts';
import { enHome } from './en-home.ts';
import { enInput } from './en-input.ts';
import { enJob } from './en-job.ts';
import { enQuality } from './en-quality.ts';
import { enRegister } from './en-register.ts';
import { enRegisterYard } from './en-register-yard.ts';
import { enReview } from './en-review.ts';
import { enReviewMeasure } from './en-review-measure.ts';
import { enRigCheck } from './en-rig-check.ts';
import { enSound } from './en-sound.ts';
import { enVerdict } from './en-verdict.ts';

/** Every word the page shows, in English. Another language is another table with the same keys. */
export const en = {
  ...enHome,
  ...enBench,
  ...enHelp,
  ...enRegister,
  ...enRegisterYard,
  ...enReview,
  ...enReviewMeasure,
  ...enQuality,
  ...enCautions,
  ...enRigCheck,
  ...enFaultFinding,
  ...enBuilder,
  ...enVerdict,
  ...enDemoYard,
  ...enDesk,
  ...enSound,
  ...enInput,
  ...enJob,
} as const;

export type TextKey = keyof typeof en;
export type TextTable = Record<TextKey, string>;
