/** Words about long work that goes on beside the page. */
export const enJob = {
  'job.stop': 'Stop',
  'job.stop-long': 'Stop: {what}',
} as const;
