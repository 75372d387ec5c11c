import type { enJob } from './en-job.ts';

/** Words about long work that goes on beside the page, in German. */
export const deJob: Record<keyof typeof enJob, string> = {
  'job.stop': 'Anhalten',
  'job.stop-long': 'Anhalten: {what}',
};
