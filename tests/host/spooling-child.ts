// Run by crash.test.ts: cuts runs for ever and prints 'run <id>' and 'ack <sequence>' until it is killed. Arguments: the data folder.
import { writeSync } from 'node:fs';
import process from 'node:process';
import { openHost } from '../../electron/host/host.ts';
import { sampleBegin, sampleChunk } from './sample-hand.ts';

const [folder, scenariosFolder] = process.argv.slice(2) as [string, string];
const host = await openHost({ folder, scenariosFolder, shell: 'loopback', appVersion: '0.1.0' });
// Not process.stdout: its last lines could be lost with the process.
const tell = (line: string) => writeSync(1, `${line}\n`);

async function reply(verb: string, request: unknown): Promise<Record<string, unknown>> {
  const answer = await host.call(verb, request);
  if (!answer.ok) throw new Error(`${verb}: ${answer.error.message}`);
  return answer.reply as Record<string, unknown>;
}

const { runId } = (await reply('beginRun', sampleBegin())) as { runId: string };
tell(`run ${runId}`);
for (let sequence = 0; ; sequence++) {
  await reply('appendToRun', sampleChunk(runId, sequence));
  tell(`ack ${sequence}`);
}
