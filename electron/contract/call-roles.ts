import type { Verb } from '../contract.ts';
import type { PersonRole } from './person.ts';

/**
 * Who may make a call.
 * 'anyone': signed in or not; what it shows or changes may still depend on who asks (an apprentice gets their own runs).
 * Otherwise the roles that may, once roles bind.
 */
export type CallRoles = 'anyone' | readonly PersonRole[];

export interface CallRule {
  roles: CallRoles;
  /** Before any passphrase is set there are no roles to go by: 'anyone' makes the call, or 'nobody'. */
  openYard: 'anyone' | 'nobody';
}

const anyone: CallRule = { roles: 'anyone', openYard: 'anyone' };
const staff: CallRule = { roles: ['instructor', 'assessor'], openYard: 'anyone' };
/** New with the records that can be trusted: never without somebody signed in. */
const signedStaff: CallRule = { roles: ['instructor', 'assessor'], openYard: 'nobody' };
const signedInstructor: CallRule = { roles: ['instructor'], openYard: 'nobody' };
const signedAssessor: CallRule = { roles: ['assessor'], openYard: 'nobody' };
const signedAnyone: CallRule = { roles: ['apprentice', 'instructor', 'assessor'], openYard: 'nobody' };
const instructor: CallRule = { roles: ['instructor'], openYard: 'anyone' };

/** Held by the host for every call, after its request was found to be one and before anything is done with it; the page may read it to show only what can be done. */
export const CALL_RULES: Readonly<Record<Verb, CallRule>> = {
  getSession: anyone,
  whoAmI: anyone,
  makeFirstInstructor: anyone,
  signIn: anyone,
  stillHere: anyone,
  signOut: anyone,
  getDemoYard: anyone,
  openDemoYard: anyone,
  leaveDemoYard: anyone,
  removeDemoYard: instructor,
  setPassphrase: signedStaff,
  listPeople: anyone,
  createPerson: instructor,
  choosePerson: anyone,
  listDrills: anyone,
  getDrill: anyone,
  checkDrill: anyone,
  importDrill: instructor,
  listDrillVersions: staff,
  getDemonstration: anyone,
  saveDrill: instructor,
  keepDemonstration: instructor,
  beginRun: anyone,
  appendToRun: anyone,
  finishRun: anyone,
  getMarking: anyone,
  abandonRun: anyone,
  noteGuess: anyone,
  listRuns: anyone,
  listStandings: anyone,
  getRun: anyone,
  exportRun: anyone,
  importRun: staff,
  getSettings: anyone,
  setSettings: anyone,
  getSpeedWindow: anyone,
  putSpeedWindow: anyone,
  listGroups: signedStaff,
  saveGroup: signedInstructor,
  deleteGroup: signedInstructor,
  assign: signedInstructor,
  listAssignments: signedStaff,
  withdrawAssignment: signedInstructor,
  listDue: signedAnyone,
  submitRun: { roles: ['apprentice'], openYard: 'nobody' },
  checkHandIn: { roles: ['apprentice'], openYard: 'nobody' },
  listQueue: signedStaff,
  getClassView: signedStaff,
  getProgress: signedAnyone,
  previewRoster: signedInstructor,
  importRoster: signedInstructor,
  exportRoster: signedInstructor,
  startCheck: signedStaff,
  signVerdict: signedAssessor,
  listVerdicts: signedAnyone,
  exportVerdict: signedAnyone,
  exportPublicKey: signedAnyone,
  addNote: signedStaff,
  listNotes: signedAnyone,
  makeModerationSet: signedStaff,
  listModerationSets: signedStaff,
  judgeBlind: signedAssessor,
  getModerationSet: signedStaff,
  exportRunsCsv: signedStaff,
  exportRunReport: signedAnyone,
  exportStatements: signedInstructor,
  sendStatements: signedInstructor,
  exportPack: signedInstructor,
  previewPack: signedInstructor,
  importPack: signedInstructor,
  backUp: signedInstructor,
  addToBackup: signedInstructor,
  inspectBackup: signedInstructor,
  restoreAtNextStart: signedInstructor,
  getWaitingRestore: signedInstructor,
  withdrawRestore: signedInstructor,
  getJob: signedStaff,
  stopJob: signedStaff,
  readJobFile: signedStaff,
  checkLedger: signedStaff,
  listLedger: signedStaff,
  correctEntry: signedStaff,
};

/** What a page asks by itself, again and again, with nobody at it: these do not keep anybody signed in. */
export const ASKED_BY_THE_PAGE: ReadonlySet<Verb> = new Set([
  'whoAmI',
  'getSession',
  'getJob',
  'getMarking',
  'getWaitingRestore',
  'getDemoYard',
]);
