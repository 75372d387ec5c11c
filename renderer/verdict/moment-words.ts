const time = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;
const thisYear = new Intl.DateTimeFormat('en', { day: 'numeric', month: 'short', ...time });
const anyYear = new Intl.DateTimeFormat('en', { day: 'numeric', month: 'short', year: 'numeric', ...time });

/** A day and a time of it, in the reader's own time zone; the year only where it is another one. */
export function momentWords(iso: string): string {
  const moment = new Date(iso);
  return (moment.getFullYear() === new Date().getFullYear() ? thisYear : anyYear).format(moment);
}
