import { useEffect } from 'react';
import { loadRuns, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { BenchHome } from './BenchHome.tsx';
import { OwnPage } from './OwnPage.tsx';
import { SignInPanel } from './SignInPanel.tsx';
import { useSignedIn } from './signed-in.ts';
import { YardPage } from './YardPage.tsx';

/** Where everybody comes in: in a yard with roles who is it; then what there is for that person. */
export function HomePage() {
  const { me, withoutNumber } = useSignedIn();
  useEffect(() => {
    document.title = say('app.name');
    if (useYard.getState().session !== null) void loadRuns();
  }, []);
  return (
    <YardPage>
      {me?.rolesBind && me.person === null && !withoutNumber ? (
        <SignInPanel />
      ) : me?.rolesBind && me.person?.role === 'apprentice' ? (
        <OwnPage key={me.person.id} person={me.person} />
      ) : (
        <BenchHome />
      )}
    </YardPage>
  );
}
