/** A label for a pile, to be printed; its code opens the pile's journal. */
import { useEffect, useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { labelTexts } from '../../../../shared/messages/made/en/label.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { reasonOf } from '../../data/client.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { useQuery } from '../../data/use-query.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { getLabel, getLabelPicture } from './records-api.ts';
import { useRecordWords } from './use-record-words.ts';
import './records.css';

const renderLabel = rendererOf(labelTexts);

export function LabelPage() {
  const { text } = useRecordWords();
  const say = useSay(renderLabel);
  const { params } = useRoute();
  const id = params.id ?? '';
  const pile = useInstallation((installation) => installation.piles?.find((one) => one.id === id));
  const { value, error } = useQuery(`label ${id}`, () => getLabel(id));
  const picture = usePicture(id);
  const name = pile?.name ?? id;
  const heading = usePage(text('page-records.label.of', { pileName: name }));
  return (
    <div class="page narrow label-page">
      <h1 ref={heading} tabIndex={-1} class="no-print">
        {text('page-records.label.title', { pileName: name })}
      </h1>
      {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
      {value && (
        <>
          <p class={value.opensElsewhere ? 'lead no-print' : 'caution no-print'}>{say(value.messages.says)}</p>
          <div class="label-sheet">
            {picture ? (
              <img src={picture} alt={text('page-records.label.code', { addressText: value.address })} />
            ) : (
              <p class="quiet">{text('page-records.label.drawing')}</p>
            )}
            <div>
              <p class="label-name">{name}</p>
              {pile && <p>{text('page-records.label.stage', { stage: pile.stage })}</p>}
              <p class="label-address">{value.address}</p>
              <p>{text('page-records.label.use')}</p>
              <p>{text('page-records.label.caution')}</p>
            </div>
          </div>
          <p class="no-print">
            <button type="button" class="primary" onClick={() => print()}>
              {text('page-records.print')}
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
