import { useEffect, useState } from 'react';
import { tellTrouble } from '../app/yard-store.ts';
import { useMe } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { bringFile, onlyFile } from './bring-file.ts';

const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** While somebody is asked something, a file is for what is asked, or for nothing. */
const isAsking = (): boolean => document.querySelector('[role="dialog"], [role="alertdialog"]') !== null;

/**
 * Catches files that are dropped anywhere on the window and takes them where they belong. Without it the browser would leave the
 * page and show the file instead.
 * @param taking whether the room that is shown takes files; elsewhere they fall back
 */
export function FileCatcher({ taking }: { taking: boolean }) {
  const me = useMe();
  const [over, setOver] = useState(false);
  const takes = taking && me !== null && me.role !== 'apprentice';
  useEffect(() => {
    const drag = (event: DragEvent) => {
      if (!holdsFiles(event) || event.defaultPrevented) return;
      event.preventDefault();
      const open = takes && !isAsking();
      if (event.dataTransfer) event.dataTransfer.dropEffect = open ? 'copy' : 'none';
      setOver(open);
    };
    const leave = (event: DragEvent) => {
      // Out of the window there is nothing that it goes to.
      if (event.relatedTarget === null) setOver(false);
    };
    const done = () => setOver(false);
    const drop = (event: DragEvent) => {
      if (!holdsFiles(event) || event.defaultPrevented) return;
      event.preventDefault();
      if (!takes || isAsking()) return;
      const files = [...(event.dataTransfer?.files ?? [])];
      Promise.resolve(files)
        .then(onlyFile)
        .then((file) => bringFile(file, me))
        .catch(tellTrouble);
    };
    window.addEventListener('dragover', drag);
    window.addEventListener('dragleave', leave);
    // A hand that moves freely drags nothing: some browsers do not tell of a drag that was given up.
    window.addEventListener('pointermove', done);
    // Seen on the way down as well: a drop place inside keeps its drop to itself.
    window.addEventListener('drop', done, { capture: true });
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', drag);
      window.removeEventListener('dragleave', leave);
      window.removeEventListener('pointermove', done);
      window.removeEventListener('drop', done, { capture: true });
      window.removeEventListener('drop', drop);
    };
  }, [takes, me]);
  if (!over) return null;
  return (
    <div className="file-catcher" aria-hidden="true">
      <p>{say('bring.over')}</p>
    </div>
  );
}
