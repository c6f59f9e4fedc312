/** Photos for an entry, from the camera or from files; each waits on this device with its entry. */
import { useId, useState } from 'preact/hooks';
import { mostPhotos, photoLimits, photoTypes } from '../../../../shared/contracts/journal.ts';
import { newClientId } from './client-id.ts';
import { Photo } from './photo.tsx';
import { PhotoRefused, shrinkPhoto } from './shrink-photo.ts';
import { type JournalWords, useJournalWords } from './use-journal-words.ts';
import { waitingStore } from './waiting-store.ts';
import './journal.css';

interface PhotoFieldProps {
  readonly photoIds: readonly string[];
  readonly onPhotos: (photoIds: string[]) => void;
  readonly error?: string | undefined;
}

export function PhotoField({ photoIds, onPhotos, error }: PhotoFieldProps) {
  const words = useJournalWords();
  const { text } = words;
  const [problem, setProblem] = useState<string>();
  const [busy, setBusy] = useState(false);
  const add = async (files: FileList | null) => {
    setProblem(undefined);
    setBusy(true);
    const added: string[] = [];
    try {
      for (const file of [...(files ?? [])].slice(0, mostPhotos - photoIds.length)) {
        const id = newClientId();
        await waitingStore.putPhoto(id, await shrinkPhoto(file));
        added.push(id);
      }
    } catch (refused) {
      setProblem(whyNot(refused, words));
    }
    setBusy(false);
    if (added.length > 0) onPhotos([...photoIds, ...added]);
  };
  return (
    <div class="photo-field">
      {photoIds.length < mostPhotos && (
        <div class="photo-picks">
          <PhotoPick label={text('page-journal.photo.take')} camera onFiles={add} />
          <PhotoPick label={text('page-journal.photo.files')} onFiles={add} />
        </div>
      )}
      <p role="status" class={busy ? 'hint' : 'unseen'}>
        {busy ? text('page-journal.photo.shrinking') : ''}
      </p>
      {(problem ?? error) && <p class="wrong">{problem ?? error}</p>}
      {photoIds.length > 0 && (
        <ul class="photos">
          {photoIds.map((id, index) => (
            <li key={id}>
              <Photo id={id} alt={text('page-journal.photo.new', { photoCount: index + 1 })} />
              <button type="button" class="plain" onClick={() => onPhotos(photoIds.filter((one) => one !== id))}>
                {text('page-journal.photo.drop', { photoCount: index + 1 })}
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function whyNot(refused: unknown, { text }: JournalWords): string {
  if (!(refused instanceof PhotoRefused)) {
    const reasonText = refused instanceof Error ? refused.message : String(refused);
    return text('page-journal.photo.not-kept', { reasonText });
  }
  return refused.why === 'type'
    ? text('page-journal.photo.type')
    : text('page-journal.photo.size', { mostBytes: photoLimits.bytes });
}

interface PhotoPickProps {
  readonly label: string;
  readonly camera?: boolean;
  readonly onFiles: (files: FileList | null) => Promise<void>;
}

function PhotoPick({ label, camera, onFiles }: PhotoPickProps) {
  const id = useId();
  // A new input each time: taking the same file twice must count as a change.
  const [turn, setTurn] = useState(0);
  return (
    <div class="photo-pick">
      <input
        key={turn}
        id={id}
        type="file"
        accept={photoTypes.join(',')}
        multiple={!camera}
        {...(camera ? { capture: 'environment' } : {})}
        onChange={(event) => void onFiles(event.currentTarget.files).then(() => setTurn(turn + 1))}
      />
      <label for={id} class="button">
        {label}
      </label>
    </div>
  );
}
