/** What can be written about a pile, under the thumb: a kind, a choice, and it is written. */
import type { EntryKind } from '../../../../shared/entry.ts';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import { EntryForm } from './entry-form.tsx';
import { entryGroups } from './entry-groups.ts';
import { useDraftKinds } from './kept-drafts.ts';
import { useJournalWords } from './use-journal-words.ts';
import { useDraft, useWriting } from './use-writing.ts';
import './journal.css';

export function WritePanel({ pileId }: { readonly pileId: string }) {
  const { text } = useJournalWords();
  const drafts = useDraftKinds(pileId);
  const writing = useWriting(pileId);
  const { kind, choose, kindButton } = writing;
  return (
    <div class="write-panel no-print">
      {entryGroups.map(({ group, kinds }) => (
        <fieldset class="kinds" key={group}>
          <legend>{text('page-journal.group', { group })}</legend>
          <div class="kinds-row">
            {kinds.map((one) => (
              <button
                type="button"
                key={one}
                ref={kindButton(one)}
                aria-pressed={one === kind}
                onClick={() => choose(one)}
              >
                {text('page-journal.kind', { kind: one })}
                {drafts.has(one) && one !== kind && <small class="kind-draft">{text('page-journal.draft')}</small>}
              </button>
            ))}
          </div>
          {kind && kinds.some((one) => one === kind) && (
            <NewEntryForm key={kind} kind={kind} pileId={pileId} isDraft={drafts.has(kind)} writing={writing} />
          )}
        </fieldset>
      ))}
      <div class={writing.status ? 'written-down' : 'unseen'}>
        <p role="status">{writing.status}</p>
        {writing.undo && (
          <button type="button" onClick={() => void writing.undo?.()}>
            {text('page-journal.undo')}
          </button>
        )}
      </div>
    </div>
  );
}

interface NewEntryProps {
  readonly kind: EntryKind;
  readonly pileId: string;
  readonly isDraft: boolean;
  readonly writing: ReturnType<typeof useWriting>;
}

function NewEntryForm({ kind, pileId, isDraft, writing }: NewEntryProps) {
  const { text } = useJournalWords();
  const { first, onDraft, throwAway } = useDraft(pileId, kind);
  const { others, rainsOnAll, setRainsOnAll, leave, write } = writing;
  const [firstBed = '', ...otherBeds] = others.map(({ name }) => name);
  const bedsText = otherBeds.reduce(
    (beforeText, nextText) => text('page-journal.others.next', { beforeText, nextText }),
    firstBed,
  );
  return (
    <EntryForm
      pileId={pileId}
      first={first.draft}
      firstAt={first.at}
      onDraft={onDraft}
      onLeave={() => leave(kind)}
      onWrite={(entry) => write(kind, entry)}
      more={
        kind === 'rained' &&
        others.length > 0 && (
          <Tick label={text('page-journal.others', { bedsText })} checked={rainsOnAll} onChange={setRainsOnAll} />
        )
      }
      asDraft={
        isDraft && (
          <div class="draft-line">
            <p class="hint">{text('page-journal.draft.here')}</p>
            <SureButton
              words={text('page-journal.waiting.drop')}
              asks={text('page-journal.waiting.drop.asks')}
              sure={text('page-journal.waiting.drop')}
              act={async () => {
                await throwAway();
                leave(kind);
              }}
            />
          </div>
        )
      }
    />
  );
}
