import type { ReactNode } from 'react';
import { say } from '../text/say.ts';
import { YardHead } from './YardHead.tsx';

/** Every room of the register between its head and the caution at its foot. */
export function YardPage({ children }: { children: ReactNode }) {
  return (
    <div className="home">
      <YardHead />
      {children}
      <footer className="home-foot">
        <p>
          <strong>{say('app.caution')}</strong> {say('caution.always')}
        </p>
      </footer>
    </div>
  );
}
