import { FileTrigger } from 'react-aria-components';
import { tellTrouble } from '../app/yard-store.ts';
import { useMe } from '../register/signed-in.ts';
import { Action } from '../ui/Action.tsx';
import { bringFile } from './bring-file.ts';

export interface FileChoiceProps {
  /** Words of the button. */
  choose: string;
  /** Words beside it: that the file can be dropped as well. */
  about: string;
}

/** The visible place for files of a room. It takes every kind: what belongs elsewhere is taken there. */
export function FileChoice({ choose, about }: FileChoiceProps) {
  const me = useMe();
  return (
    <div className="roster-drop file-choice">
      <FileTrigger
        onSelect={(files) => {
          const file = files?.[0];
          if (file) bringFile(file, me).catch(tellTrouble);
        }}
      >
        <Action>{choose}</Action>
      </FileTrigger>
      <span className="soft">{about}</span>
    </div>
  );
}
