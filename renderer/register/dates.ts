import { perLanguage } from '../text/language.ts';

const MOMENT = { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;
const DAY = { weekday: 'short', day: 'numeric', month: 'short' } as const;
/** Weeks are counted by the host from Mondays in UTC. */
const WEEK = { day: 'numeric', month: 'short', timeZone: 'UTC' } as const;

/** One way to write a date: without its year while that is the one that runs, else with it. */
function dateWriter(parts: Intl.DateTimeFormatOptions): (date: Date) => string {
  const thisYear = perLanguage((language) => new Intl.DateTimeFormat(language, parts));
  const anyYear = perLanguage((language) => new Intl.DateTimeFormat(language, { ...parts, year: 'numeric' }));
  return (date) => (date.getFullYear() === new Date().getFullYear() ? thisYear : anyYear)().format(date);
}

const moment = dateWriter(MOMENT);
const day = dateWriter(DAY);
const week = dateWriter(WEEK);

const date = perLanguage((language) => new Intl.DateTimeFormat(language, { day: 'numeric', month: 'short', year: 'numeric' }));
const dateAndTime = perLanguage(
  (language) => new Intl.DateTimeFormat(language, { dateStyle: 'medium', timeStyle: 'short', hourCycle: 'h23' }),
);
const wholeMoment = perLanguage(
  (language) => new Intl.DateTimeFormat(language, { dateStyle: 'medium', timeStyle: 'long', hour12: false }),
);

/** "Mar 20, 2030", with its year always: for what is read long after. */
export function dateText(iso: string): string {
  return date().format(new Date(iso));
}

/** "Mar 20, 2030, 10:59", with its year always. */
export function dateAndTimeText(iso: string): string {
  return dateAndTime().format(new Date(iso));
}

/** Down to the second, with the zone: as an entry of the record needs it. */
export function wholeMomentText(iso: string): string {
  return wholeMoment().format(new Date(iso));
}

/** Day and minute, in the time of this place: "Oct 21, 10:59", of another year "Oct 21, 2025, 10:59". */
export function momentText(iso: string): string {
  return moment(new Date(iso));
}

/** "Fri, Mar 20", of another year "Fri, Mar 20, 2026". */
export function dayText(iso: string): string {
  return day(new Date(iso));
}

/** The Monday of a week as the host counts them, seconds since 1970: "Mar 16", of another year "Mar 16, 2026". */
export function weekText(seconds: number): string {
  return week(new Date(seconds * 1000));
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
