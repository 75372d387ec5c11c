import { deBench } from './de-bench.ts';
import { deBuilder } from './de-builder.ts';
import { deCautions } from './de-cautions.ts';
import { deDemoYard } from './de-demo-yard.ts';
import { deDesk } from './de-desk.ts';
import { deFaultFinding } from './de-fault-finding.ts';
import { deHelp } from './de-help.ts';
import { deHome } from './de-home.ts';
import { deInput } from './de-input.ts';
import { deJob } from './de-job.ts';
import { deQuality } from './de-quality.ts';
import { deRegister } from './de-register.ts';
import { deRegisterYard } from './de-register-yard.ts';
import { deReview } from './de-review.ts';
import { deReviewMeasure } from './de-review-measure.ts';
import { deRigCheck } from './de-rig-check.ts';
import { deSound } from './de-sound.ts';
import { deVerdict } from './de-verdict.ts';
import type { TextTable } from './en.ts';

/** Every word the page shows, in German: for an apprentice, who is called du. */
export const de: TextTable = {
  ...deBench,
  ...deBuilder,
  ...deCautions,
  ...deDemoYard,
  ...deDesk,
  ...deFaultFinding,
  ...deHelp,
  ...deHome,
  ...deInput,
  ...deJob,
  ...deQuality,
  ...deRegister,
  ...deRegisterYard,
  ...deReview,
  ...deReviewMeasure,
  ...deRigCheck,
  ...deSound,
  ...deVerdict,
};
