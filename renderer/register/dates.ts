const moment = new Intl.DateTimeFormat('en', {
  day: 'numeric',
  month: 'short',
  hour: '2-digit',
  minute: '2-digit',
  hour12: false,
});
const day = new Intl.DateTimeFormat('en', { weekday: 'short', day: 'numeric', month: 'short' });

/** Day and minute, in the time of this place. */
export function momentText(iso: string): string {
  return moment.format(new Date(iso));
}

/** "Fri, Mar 20". */
export function dayText(iso: string): string {
  return day.format(new Date(iso));
}

/** The end of a day as it is entered (yyyy-mm-dd), in the time of this place; null where nothing was entered or it is no day. */
export function endOfDayIso(entered: string): string | null {
  const end = new Date(`${entered}T23:59:59`);
  return Number.isNaN(end.getTime()) ? null : end.toISOString();
}

/** Today as a date field takes it, in the time of this place. */
export function todayForEntry(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}
