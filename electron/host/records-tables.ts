import type { Generated, Kysely, Selectable } from 'kysely';

/**
 * Tables of the records file as kysely sees them. Times are ISO 8601 UTC text, truth values 0 or 1, structured values JSON text:
 * all of it also means the same in PostgreSQL 15.
 */
export interface RecordsTables {
  migrations: { version: number; name: string; applied_at: string; app_version: string };
  people: { id: string; role: string; number: number; created_at: string };
  passphrases: {
    person_id: string;
    scrypt_n: number;
    scrypt_r: number;
    scrypt_p: number;
    salt: string;
    hash: string;
    wrong_tries: number;
    /** ms since 1970. */
    next_try_ms: number;
  };
  /** `wrapped`: the private half under the owner's passphrase, null once the key is retired. */
  signing_keys: {
    fingerprint: string;
    person_id: string;
    public_pem: string;
    wrapped: string | null;
    created_at: string;
    retired_at: string | null;
  };
  /** Only ever added to; `body` is JSON text, `digest` covers the entry and the digest before it. */
  ledger: LedgerRow;
  /** Every version of a drill that was ever imported, cut or received, under the hash of its content. */
  drill_versions: {
    hash: string;
    drill_id: string;
    source: string;
    title: string;
    technique: string;
    material: string;
    thickness_mm: number;
    text: string;
    added_at: string;
  };
  /** Which version of an own drill is the current one. */
  own_drills: { drill_id: string; hash: string };
  /** A version of an own drill that was saved to be tried: not for apprentices. */
  drill_drafts: { drill_id: string; hash: string };
  /** The run that shows how a version of a drill is cut. */
  drill_demonstrations: { drill_hash: string; run_id: string; kept_at: string };
  runs: RunTable;
  run_contents: RunContentsRow;
  groups: { id: string; name: string; created_at: string };
  group_members: { group_id: string; person_id: string };
  assignments: {
    id: string;
    title: string;
    due_at: string | null;
    /** How often each drill may be tried; null = as often as wanted. */
    attempts: number | null;
    /** null = as each drill says. */
    cue_level: string | null;
    drill_order: string;
    created_by: string;
    created_at: string;
    withdrawn_at: string | null;
  };
  /** `attempts`: the assignment's, else the drill's own. */
  assignment_drills: { assignment_id: string; position: number; drill_hash: string; attempts: number | null; sealed: number };
  assignment_targets: { assignment_id: string; person_id: string | null; group_id: string | null };
  /** `document`: the verdict file; `trust`: what cutting the run again had come to. */
  verdicts: { id: string; run_id: string; person_id: string; at: string; document: string; trust: string };
  notes: { id: string; run_id: string; person_id: string; at: string; tick: number; text: string };
  moderation_sets: {
    id: string;
    title: string;
    created_by: string;
    created_at: string;
    first_id: string;
    second_id: string;
  };
  moderation_runs: { set_id: string; position: number; run_id: string };
  /** `judgement`: JSON. */
  moderation_judgements: { set_id: string; run_id: string; person_id: string; at: string; judgement: string };
  run_marks: { run_id: string; measure_id: string; mark: number; weight: number };
  practice: {
    person_id: string;
    drill_id: string;
    finished: number;
    passes: number;
    score_sum: number;
    best: number;
    recent: number;
    last_at: string;
    electrode: number;
    nozzle: number;
    shield: number;
    gas_m3: number;
    minutes: number;
  };
  /** Of all drills together, each run by the metal of the version that was cut. */
  practice_plate: { person_id: string; material: string; plate_kg: number };
  practice_marks: { person_id: string; drill_id: string; measure_id: string; runs: number; recent: number };
  practice_weeks: { person_id: string; technique: string; week: string; runs: number; passes: number; score_sum: number };
  /** Acknowledged chunks of runs that are not finished; `inputs` is an encoded hand log of its own. */
  run_spool: { run_id: string; sequence: number; first_tick: number; tick_count: number; inputs: Uint8Array; stored_at: string };
  settings: { name: string; value: string };
  speed_windows: {
    core_version: string;
    material: string;
    thickness_mm: number;
    current_a: number;
    rig: string;
    speed_window: string;
  };
}

export interface LedgerRow {
  seq: number;
  at: string;
  who: string;
  kind: string;
  subject: string;
  body: string;
  previous: string;
  digest: string;
}

interface RunTable {
  id: string;
  state: string;
  source: string;
  person_id: string | null;
  drill_hash: string;
  seed: number;
  hand_kind: string;
  hand_name: string;
  core_version: string;
  began_at: string;
  ended_at: string | null;
  tick_count: number;
  final_digest: string | null;
  score: number | null;
  passed: number | null;
  trace_hz: number | null;
  choices: string | null;
  /** `HandScale` as JSON. */
  hand_scale: string | null;
  /** One of SPEED_GUESSES. */
  speed_guess: string | null;
  diagnosis: string | null;
  assignment_id: string | null;
  /** 1: an assessment, whose marks are kept from the apprentice until it is decided. */
  sealed: Generated<number>;
  submitted_at: string | null;
  decision: string | null;
  decided_at: string | null;
  decided_by: string | null;
  /** The measure that cost the most points, null where none did. */
  weakest_measure: string | null;
  /** `RunUsed` as JSON. */
  used: string | null;
}

/** What is large of a run. */
export interface RunContentsRow {
  run_id: string;
  /** One encoded hand log of all ticks once the run is finished; until then the chunks in run_spool hold them. */
  inputs: Uint8Array | null;
  digests: string | null;
  score_record: string | null;
  trace_fields: string | null;
  trace_columns: Uint8Array | null;
}

export type RunRow = Selectable<RunTable>;

export type RecordsDatabase = Kysely<RecordsTables>;
