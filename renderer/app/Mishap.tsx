import { Component, type ReactNode } from 'react';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { errorWords } from './error-words.ts';

/** Catches what goes wrong while a room is drawn, and says so in a sentence instead of leaving an empty page. */
export class Mishap extends Component<{ children: ReactNode }, { reason: string | null }> {
  override state: { reason: string | null } = { reason: null };

  static getDerivedStateFromError(error: unknown): { reason: string } {
    return { reason: errorWords(error) };
  }

  override render(): ReactNode {
    const { reason } = this.state;
    if (reason === null) return this.props.children;
    return (
      <main className="waiting">
        <div>
          <p role="alert">
            <Told words={say('app.mishap', { reason })} />
          </p>
          <Action onPress={() => window.location.reload()}>{say('app.reload')}</Action>
        </div>
      </main>
    );
  }
}
