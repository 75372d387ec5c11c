/** Runs sandboxed before the page: gives it `window.kerfhand`, one function per verb of the contract, and nothing else. */
import { contextBridge, ipcRenderer } from 'electron';
import { type KerfhandVerbs, VERB_NAMES } from './contract.ts';
import { CALL_CHANNEL } from './shell/call-channel.ts';

const verbs = Object.fromEntries(
  VERB_NAMES.map((verb) => [verb, (request: unknown) => ipcRenderer.invoke(CALL_CHANNEL, verb, request)]),
) as KerfhandVerbs;

contextBridge.exposeInMainWorld('kerfhand', verbs);
