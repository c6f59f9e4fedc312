/** Photos for an entry, from the camera or from files; each waits on this device with its entry. */
import { useId, useState } from 'preact/hooks';
import { mostPhotos, photoTypes } from '../../../../shared/contracts/journal.ts';
import { newClientId } from './client-id.ts';
import { Photo } from './photo.tsx';
import { shrinkPhoto } from './shrink-photo.ts';
import { waitingStore } from './waiting-store.ts';
import './journal.css';

interface PhotoFieldProps {
  readonly photoIds: readonly string[];
  readonly onPhotos: (photoIds: string[]) => void;
  readonly error?: string | undefined;
}

export function PhotoField({ photoIds, onPhotos, error }: PhotoFieldProps) {
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
      setProblem(refused instanceof Error ? refused.message : String(refused));
    }
    setBusy(false);
    if (added.length > 0) onPhotos([...photoIds, ...added]);
  };
  return (
    <div class="photo-field">
      {photoIds.length < mostPhotos && (
        <div class="photo-picks">
          <PhotoPick label="Take a photo" camera onFiles={add} />
          <PhotoPick label="Photo from files" onFiles={add} />
        </div>
      )}
      <p role="status" class={busy ? 'hint' : 'unseen'}>
        {busy ? 'Making the photo smaller…' : ''}
      </p>
      {(problem ?? error) && <p class="wrong">{problem ?? error}</p>}
      {photoIds.length > 0 && (
        <ul class="photos">
          {photoIds.map((id, index) => (
            <li key={id}>
              <Photo id={id} alt={`Photo ${index + 1} of this entry`} />
              <button type="button" class="plain" onClick={() => onPhotos(photoIds.filter((one) => one !== id))}>
                Leave photo {index + 1} out
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
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
