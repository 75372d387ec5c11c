// A process of its own that restores a backup and tells of every step, so that it can be ended on the way: FILE FOLDER [hold].
// With `hold` it stands still at the first step until it is ended.
import { restoreYard } from '../../electron/host/papers/restore-yard.ts';

const [file, folder, hold] = process.argv.slice(2);
await restoreYard({
  file,
  folder,
  appVersion: '0.1.0',
  now: new Date('2030-02-01T10:15:00.000Z'),
  onProgress(done, total) {
    process.stdout.write(`${done} of ${total}\n`);
    if (hold === 'hold') Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 60_000);
  },
});
process.stdout.write('done\n');
