/** One squeezed handful: how to do it, what each result means for this stage, and what to do about it. */
import type { ComponentChildren } from 'preact';
import { squeezeFeels } from '../../../../shared/entry.ts';
import { squeezeTexts } from '../../../../shared/messages/made/en/squeeze.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import type { Stage } from '../../../../shared/names.ts';
import { squeezeHow, squeezeResult, squeezeTodo } from '../../../../shared/squeeze.ts';
import { useSay } from '../../data/live/use-say.ts';
import { OneOf } from './thumb-choice.tsx';
import { useJournalWords } from './use-journal-words.ts';

const renderSqueeze = rendererOf(squeezeTexts);

interface SqueezeFieldsProps {
  readonly stage: Stage;
  readonly feel: string;
  readonly onFeel: (feel: string) => void;
  readonly error: string | undefined;
  /** Where it was taken. */
  readonly place: ComponentChildren;
}

export function SqueezeFields({ stage, feel, onFeel, error, place }: SqueezeFieldsProps) {
  const { text } = useJournalWords();
  const say = useSay(renderSqueeze);
  const chosen = squeezeFeels.find((one) => one === feel);
  return (
    <>
      <p class="hint">{say(squeezeHow)}</p>
      <OneOf
        legend={text('page-journal.squeeze')}
        value={feel}
        choices={squeezeFeels.map((one) => [one, say(squeezeResult(one, stage))] as const)}
        onValue={onFeel}
        error={error}
      />
      {chosen && <p role="status">{say(squeezeTodo(chosen))}</p>}
      <details class="more">
        <summary>{text('page-journal.squeeze.place')}</summary>
        {place}
      </details>
    </>
  );
}
