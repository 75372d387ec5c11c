import { useState } from 'react';
import { DropZone, FileTrigger, Text } from 'react-aria-components';
import { errorWords } from '../app/error-words.ts';
import { bringFile } from '../desk/bring-file.ts';
import { useMe } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';

/** Takes in a run file, chosen or dropped, and opens it; other files find their own room. What is wrong with one is said and nothing is kept. */
export function RunFileDrop() {
  const me = useMe();
  const [wrong, setWrong] = useState<string | null>(null);

  async function take(file: File | undefined): Promise<void> {
    if (!file) return;
    setWrong(null);
    try {
      await bringFile(file, me);
    } catch (error) {
      setWrong(say('queue.file.bad', { reason: errorWords(error) }));
    }
  }

  return (
    <DropZone
      className="run-drop"
      onDrop={async ({ items }) => {
        const dropped = items.find((item) => item.kind === 'file');
        if (dropped?.kind === 'file') await take(await dropped.getFile());
      }}
    >
      <FileTrigger onSelect={(files) => take(files?.[0])}>
        <Action>{say('queue.file')}</Action>
      </FileTrigger>
      <Text slot="label" className="soft small">
        {say('queue.file.about')}
      </Text>
      {wrong !== null && (
        <p className="run-drop-wrong" role="alert">
          <Told words={wrong} />
        </p>
      )}
    </DropZone>
  );
}
