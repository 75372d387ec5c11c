import { useEffect, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import type { Drill } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { goTo } from '../app/route.ts';
import { useSignedIn } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { useTitle } from '../ui/use-title.ts';
import { AnswersPanel } from './AnswersPanel.tsx';
import { BuilderHead } from './BuilderHead.tsx';
import { BUILDER_PARTS, type BuilderPart, partOfPath, placeOfPath } from './builder-parts.ts';
import { redo, undo, useBuilder } from './builder-store.ts';
import { CardForm } from './CardForm.tsx';
import { keepDraft } from './draft-keeper.ts';
import { LineForm } from './LineForm.tsx';
import { openDrill } from './open-drill.ts';
import { PassForm } from './PassForm.tsx';
import { PlanTools } from './PlanTools.tsx';
import { PlateForm } from './PlateForm.tsx';
import { PlatePlan } from './PlatePlan.tsx';
import { RigForm } from './RigForm.tsx';
import { TextPane } from './TextPane.tsx';
import { useCoreAnswers } from './use-core-answers.ts';
import './builder.css';
import './entry.css';
import './plan.css';

const FOCUS_AFTER_MS = 60;

const FORMS: Record<BuilderPart, (props: { drill: Drill }) => React.ReactNode> = {
  plate: PlateForm,
  line: LineForm,
  rig: RigForm,
  pass: PassForm,
  card: CardForm,
};

/** Where an instructor makes drills. */
export function BuilderRoom({ drillId }: { drillId: string | null }) {
  const [state, setState] = useState<'opening' | 'open' | { failure: string }>('opening');
  const [fromDraft, setFromDraft] = useState(false);
  const me = useSignedIn((signedIn) => signedIn.me);
  useEffect(() => {
    let wanted = true;
    openDrill(drillId).then(
      (found) => {
        if (!wanted) return;
        setFromDraft(found);
        setState('open');
      },
      (error: unknown) => wanted && setState({ failure: errorWords(error) }),
    );
    return () => {
      wanted = false;
    };
  }, [drillId]);
  // The host refuses the save of anybody else; here they are told before they have built something.
  if (me?.rolesBind && me.person?.role !== 'instructor') return <NoWayOn sentence={say('builder.instructors-only')} />;
  if (state === 'opening') return <p className="waiting">{say('app.loading')}</p>;
  if (state === 'open') return <DrillInTheMaking fromDraft={fromDraft} />;
  return <NoWayOn sentence={say('home.drill.broken', { reason: state.failure })} />;
}

function NoWayOn({ sentence }: { sentence: string }) {
  return (
    <main className="waiting">
      <div>
        <p role="alert">
          <Told words={sentence} />
        </p>
        <Action onPress={() => goTo({ at: 'home' })}>{say('bench.back')}</Action>
      </div>
    </main>
  );
}

const typesText = (target: EventTarget | null) => target instanceof HTMLElement && target.matches('input, textarea');

/** Ctrl+Z and Ctrl+Y go through the steps of the drill, but in a field, which has its own. */
function useStepKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || typesText(event.target)) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) undo();
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

function DrillInTheMaking({ fromDraft }: { fromDraft: boolean }) {
  const drill = useBuilder((state) => state.history.present);
  const { base, opened, writing } = useBuilder();
  const broken = writing !== null && writing.problems.length > 0;
  const answers = useCoreAnswers(drill);
  const [part, setPart] = useState<BuilderPart>('plate');
  const [draftShown, setDraftShown] = useState(fromDraft);
  useStepKeys();
  useTitle(say('builder.title'));
  const isChanged = useBuilder((state) => state.history.past.length > 0);
  useEffect(() => {
    if (isChanged && drill !== base.drill) keepDraft(opened, { drill, onHash: base.hash });
  }, [drill, base, opened, isChanged]);

  function mend(path: string): void {
    setPart(partOfPath(path));
    // A dialog that closes gives the focus back first.
    setTimeout(() => {
      const place = document.querySelector<SVGElement>(`[data-place="${placeOfPath(path) ?? ''}"]`);
      const tab = document.querySelector<HTMLElement>('.builder-form [role="tab"][aria-selected="true"]');
      (place ?? tab)?.focus();
    }, FOCUS_AFTER_MS);
  }

  return (
    <div className="builder">
      <BuilderHead drill={drill} answers={answers} isReadable={!broken} onMend={mend} />
      {draftShown && (
        <p className="notice builder-notice" role="status">
          <span>{say('builder.draft')}</span>
          <Action onPress={() => setDraftShown(false)}>{say('app.dismiss')}</Action>
        </p>
      )}
      <main className="builder-main">
        <section className="builder-form" aria-label={say('builder.form')} inert={broken}>
          <Tabs selectedKey={part} onSelectionChange={(key) => setPart(key as BuilderPart)}>
            <TabList className="part-tabs" aria-label={say('builder.form')}>
              {BUILDER_PARTS.map((id) => (
                <Tab key={id} id={id} className="part-tab">
                  {say(`builder.part.${id}`)}
                </Tab>
              ))}
            </TabList>
            {BUILDER_PARTS.map((id) => {
              const Form = FORMS[id];
              return (
                <TabPanel key={id} id={id} className="part-panel">
                  <Form drill={drill} />
                </TabPanel>
              );
            })}
          </Tabs>
        </section>
        <div className="builder-middle" inert={broken}>
          <PlatePlan drill={drill} />
          <PlanTools drill={drill} />
        </div>
        <div className="builder-right">
          <AnswersPanel drill={drill} answers={answers} isReadable={!broken} onMend={mend} />
          <TextPane drill={drill} />
        </div>
      </main>
    </div>
  );
}
