import { useEffect, useState } from 'react';
import type { DrillSummary } from '../../electron/contract.ts';
import type { Drill } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { readDrill } from './read-drill.ts';

export type DrillReading = { state: 'reading' } | { state: 'read'; drill: Drill } | { state: 'broken'; reason: string };

/** The drill behind a summary, once its text has come. */
export function useDrill(summary: DrillSummary): DrillReading {
  const [reading, setReading] = useState<DrillReading>({ state: 'reading' });
  useEffect(() => {
    let wanted = true;
    readDrill(summary).then(
      (drill) => wanted && setReading({ state: 'read', drill }),
      (error: unknown) => wanted && setReading({ state: 'broken', reason: errorWords(error) }),
    );
    return () => {
      wanted = false;
    };
  }, [summary]);
  return reading;
}
