import { decodeRunFile, type ReadRunFile } from '../../sim-core/index.ts';
import { HostError } from './host-error.ts';

/** @throws HostError 'bad-file', 'newer-version' */
export function readRunText(text: string): ReadRunFile {
  const result = decodeRunFile(text);
  if (result.ok) return result.run;
  const [first] = result.problems;
  const place = first && first.path !== '$' ? `At ${first.path}: ` : '';
  throw new HostError(
    result.why === 'newer' ? 'newer-version' : 'bad-file',
    `${place}${first?.sentence ?? 'This is not a run file.'}`,
  );
}
