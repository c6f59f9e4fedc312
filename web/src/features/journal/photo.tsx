/** A photo, from this device while it waits, else from the server, asked for with the token. */
import { useEffect, useState } from 'preact/hooks';
import { getFile } from '../../data/files.ts';
import { useJournalWords } from './use-journal-words.ts';
import { waitingStore } from './waiting-store.ts';
import './photo.css';

interface PhotoProps {
  readonly id: string;
  readonly alt: string;
  readonly whole?: boolean;
}

async function photoOf(id: string, whole: boolean): Promise<Blob> {
  const waiting = await waitingStore.photo(id).catch(() => undefined);
  return waiting ?? getFile(`/api/photos/${encodeURIComponent(id)}?size=${whole ? 'whole' : 'small'}`);
}

export function Photo({ id, alt, whole = false }: PhotoProps) {
  const { text } = useJournalWords();
  const [address, setAddress] = useState<string>();
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let made: string | undefined;
    let gone = false;
    photoOf(id, whole).then(
      (blob) => {
        if (gone) return;
        made = URL.createObjectURL(blob);
        setAddress(made);
      },
      () => !gone && setFailed(true),
    );
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [id, whole]);
  if (failed) return <p class="photo photo-none">{text('page-journal.photo.none')}</p>;
  return address ? (
    <img class="photo" src={address} alt={alt} />
  ) : (
    <p class="photo photo-none">{text('page-journal.photo')}</p>
  );
}
