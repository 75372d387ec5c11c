export type ErrorCode =
  | 'bad-request' // the request is not what the contract says; a fault of the page
  | 'forbidden' // not from the page of this session, or not for this person to do
  | 'wrong-passphrase'
  | 'wait' // too many wrong passphrases: the sentence says how long
  | 'not-found' // no such person, drill, run
  | 'conflict' // would overwrite something, or does not follow from what is there
  | 'missing-chunks' // finishRun before every chunk was acknowledged
  | 'bad-file' // a drill or run file that is broken
  | 'newer-version' // a drill, run or records file of a newer Kerfhand
  | 'too-large' // over a stated limit
  | 'disk-full'
  | 'read-only'
  | 'in-use' // another Kerfhand owns the records
  | 'damaged' // the records file is damaged
  | 'internal'; // a fault of the host

/** What went wrong: `message` is one sentence for a person, saying what and where. */
export interface CallError {
  code: ErrorCode;
  message: string;
}
