import type { ReviewedRun } from '../review/fresh-run.ts';
import { TrustSign } from './TrustSign.tsx';
import type { Trust } from './use-trust.ts';

/** Whether the record can be trusted, and what an assessor said of it. */
export function VerdictPanel({ trust }: { run: ReviewedRun; trust: Trust }) {
  return (
    <div className="verdict">
      <TrustSign trust={trust} />
    </div>
  );
}
