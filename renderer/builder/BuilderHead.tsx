import { useState } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { Drill, ParseProblem } from '../../sim-core/index.ts';
import { goTo } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { ProblemList } from './AnswersPanel.tsx';
import { redo, undo, useBuilder } from './builder-store.ts';
import { saveDrill } from './save-drill.ts';
import type { CoreAnswers } from './use-core-answers.ts';
import { VersionsDialog } from './VersionsDialog.tsx';

const NEW = ' ';

export interface BuilderHeadProps {
  drill: Drill;
  answers: CoreAnswers;
  /** False while the text cannot be read: nothing is saved then. */
  isReadable: boolean;
  onMend(path: string): void;
}

/** What is done with the drill as a whole: another one, a step back, save, try. */
export function BuilderHead({ drill, answers, isReadable, onMend }: BuilderHeadProps) {
  const { history, base, opened } = useBuilder();
  const drills = useYard((state) => state.drills);
  const [refused, setRefused] = useState<ParseProblem[] | null>(null);
  const [saving, setSaving] = useState(false);
  const [said, setSaid] = useState('');
  const [versionsOpen, setVersionsOpen] = useState(false);
  const isThere = base.drill === drill;
  const isSaved = isThere && base.draft !== true;

  const stateKey = isThere ? 'builder.state.draft' : base.hash === null ? 'builder.state.new' : 'builder.state.changed';

  async function save(draft: boolean): Promise<boolean> {
    if (answers.problems && answers.problems.length > 0) {
      setRefused(answers.problems);
      return false;
    }
    setSaving(true);
    try {
      const saved = await saveDrill(draft);
      if (saved.outcome === 'refused') {
        setRefused(saved.problems);
        return false;
      }
      setSaid(draft ? '' : say('builder.saved', { number: saved.number }));
      // The address is that of the drill from now on, and Back does not lead to an empty sheet.
      if (opened !== saved.id) window.history.replaceState(null, '', `#/build/${saved.id}`);
      return true;
    } catch (error) {
      tellTrouble(error);
      return false;
    } finally {
      setSaving(false);
    }
  }

  async function tryIt(): Promise<void> {
    if (isThere || (await save(true))) goTo({ at: 'bench', drillId: drill.id });
  }

  return (
    <header className="builder-head">
      <Action kind="quiet" onPress={() => goTo({ at: 'home' })}>
        {say('bench.back')}
      </Action>
      <div className="builder-name">
        <h1 title={drill.title}>{drill.title}</h1>
        <p className="soft small" role="status" data-saved={isSaved}>
          {isSaved ? said || say('builder.state.saved') : say(stateKey)}
        </p>
      </div>
      <Pick
        label={say('builder.open')}
        value={opened ?? NEW}
        options={[
          { value: NEW, label: say('builder.open.new') },
          ...drills.map((one) => ({
            value: one.id,
            label: one.source === 'own' ? one.title : say('builder.open.copy', { title: one.title }),
          })),
        ]}
        onChange={(id) => goTo({ at: 'builder', drillId: id === NEW ? null : id })}
      />
      <Action isDisabled={history.past.length === 0} onPress={undo}>
        {say('builder.undo')}
      </Action>
      <Action isDisabled={history.future.length === 0} onPress={redo}>
        {say('builder.redo')}
      </Action>
      <Action isDisabled={base.hash === null} onPress={() => setVersionsOpen(true)}>
        {say('builder.versions')}
      </Action>
      <Action isDisabled={!isReadable} isWaiting={saving} onPress={() => void tryIt()}>
        {say('builder.try')}
      </Action>
      <Action kind="main" isDisabled={!isReadable || isSaved} isWaiting={saving} onPress={() => void save(false)}>
        {say(saving ? 'builder.saving' : 'builder.save')}
      </Action>
      <SettingsMenu />
      <ModalOverlay className="veil" isDismissable isOpen={refused !== null} onOpenChange={() => setRefused(null)}>
        <Modal>
          <Dialog className="dialog" role="alertdialog">
            <Heading slot="title" level={2} className="kerf-rule">
              {say('builder.refused')}
            </Heading>
            <p>{say('builder.refused.about')}</p>
            <ProblemList
              drill={drill}
              problems={refused ?? []}
              onMend={(path) => {
                setRefused(null);
                onMend(path);
              }}
            />
            <Action kind="main" onPress={() => setRefused(null)}>
              {say('builder.refused.back')}
            </Action>
          </Dialog>
        </Modal>
      </ModalOverlay>
      <VersionsDialog drillId={drill.id} isOpen={versionsOpen} onOpenChange={setVersionsOpen} />
    </header>
  );
}
