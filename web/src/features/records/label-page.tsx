/** A label for a pile, to be printed; its code opens the pile's journal. */
import { useEffect, useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { reasonOf } from '../../data/client.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { stageNames } from '../../ui/format/words.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { getLabel, getLabelPicture } from './records-api.ts';
import './records.css';

export function LabelPage() {
  const { params } = useRoute();
  const id = params.id ?? '';
  const pile = useInstallation((installation) => installation.piles?.find((one) => one.id === id));
  const { value, error } = useQuery(`label ${id}`, () => getLabel(id));
  const picture = usePicture(id);
  const name = pile?.name ?? id;
  const heading = usePage(`Label for ${name}`);
  return (
    <div class="page narrow label-page">
      <h1 ref={heading} tabIndex={-1} class="no-print">
        A label for {name}
      </h1>
      {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
      {value && (
        <>
          <p class={value.opensElsewhere ? 'lead no-print' : 'caution no-print'}>{value.says}</p>
          <div class="label-sheet">
            {picture ? (
              <img src={picture} alt={`Code that opens ${value.address}`} />
            ) : (
              <p class="quiet">Drawing the code…</p>
            )}
            <div>
              <p class="label-name">{name}</p>
              {pile && <p>{stageNames[pile.stage]}</p>}
              <p class="label-address">{value.address}</p>
              <p>Read the code with a phone to write in this pile’s journal.</p>
              <p>Mask on before opening. Not sanitised.</p>
            </div>
          </div>
          <p class="no-print">
            <button type="button" class="primary" onClick={() => print()}>
              Print it
            </button>
          </p>
        </>
      )}
    </div>
  );
}

/** Fetched with the token, since a picture's own address cannot carry one. */
function usePicture(pileId: string): string | undefined {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    let made: string | undefined;
    let gone = false;
    getLabelPicture(pileId).then(
      (blob) => {
        if (gone) return;
        made = URL.createObjectURL(blob);
        setAddress(made);
      },
      () => undefined,
    );
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [pileId]);
  return address;
}
