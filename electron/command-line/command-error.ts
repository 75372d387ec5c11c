/** What was asked cannot be done: one sentence for a person. */
export class CommandError extends Error {}

/** The command itself was put wrongly; the sentence is followed by the verb's usage. */
export class UsageError extends Error {}
