import { z } from 'zod';
import { personSchema } from './person.ts';
import { id } from './values.ts';

/** Shortest passphrase: NIST SP 800-63B, 5.1.1.1, asks for 8 characters at least and for room for 64. */
export const PASSPHRASE_LEAST = 8;
const newPassphrase = z.string().min(PASSPHRASE_LEAST, `A passphrase has at least ${PASSPHRASE_LEAST} characters`).max(200);
const givenPassphrase = z.string().max(200);

/** Who is signed in on this connection: the Electron window, or the browser behind the loopback address. */
export const whoAmISchema = z.strictObject({
  person: personSchema.nullable(),
  /** False until the first passphrase is set: everyone may do what needs no signature, and nobody has to sign in. */
  rolesBind: z.boolean(),
  /** Instructors and assessors who can sign in. */
  withPassphrase: z.array(id),
  /**
   * Who was signed out here because nothing had been done for longer than the settings allow; null once anybody has signed in or
   * out. What stands on the page may be kept for them.
   */
  signedOutIdle: personSchema.nullable(),
});
export type WhoAmI = z.infer<typeof whoAmISchema>;

export const SESSION_VERBS = {
  whoAmI: { request: z.strictObject({}), reply: whoAmISchema },
  /**
   * Sets the first passphrase of the yard, from which on roles bind, and signs that instructor in. Without `personId` it is the
   * instructor with the lowest number, or a new one. A 'conflict' where there is a passphrase already.
   */
  makeFirstInstructor: {
    request: z.strictObject({ passphrase: newPassphrase, personId: id.nullable().default(null) }),
    reply: whoAmISchema,
  },
  /**
   * An apprentice picks a number; instructor and assessor give their passphrase. After three wrong ones each further try has to
   * wait, twice as long each time ('wait'); the count outlasts a restart.
   */
  signIn: {
    request: z.strictObject({ personId: id, passphrase: givenPassphrase.nullable().default(null) }),
    reply: whoAmISchema,
  },
  /**
   * Says that somebody is at the page although it asks nothing of the host: while a text is written, at most once a minute. An
   * instructor or assessor is signed out after `idleSignOutMinutes` of the settings without a call; what a page asks by itself
   * (`ASKED_BY_THE_PAGE`) does not count.
   */
  stillHere: { request: z.strictObject({}), reply: whoAmISchema },
  signOut: { request: z.strictObject({}), reply: whoAmISchema },
  /**
   * One's own passphrase with the `current` one; an instructor also gives one to somebody else, which stands in the ledger and
   * retires the signing key that the old passphrase guarded.
   */
  setPassphrase: {
    request: z.strictObject({ personId: id, passphrase: newPassphrase, current: givenPassphrase.nullable().default(null) }),
    reply: z.strictObject({}),
  },
} as const;
