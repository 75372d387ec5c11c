const moment = new Intl.DateTimeFormat('en', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
});

/** A day and a time of it, in the reader's own time zone. */
export function momentWords(iso: string): string {
  return moment.format(new Date(iso));
}
