/** That foretold air is reckoned with: whose, how far, and how old. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageAirAheadTexts } from '../../../../shared/messages/made/en/page-air-ahead.ts';
import { msPerMinute } from '../../../../shared/units.ts';
import { weatherLicenceUrl, weatherSource } from '../../../../shared/weather-source.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import './ahead.css';

export function AirAhead({ airAhead }: Pick<PileDetail, 'airAhead'>) {
  const { text, rich } = usePageTexts(pageAirAheadTexts, formatQuantity);
  const nowMs = useServerNow();
  const aheadMs = airAhead ? Date.parse(airAhead.until) - nowMs : 0;
  if (!airAhead || aheadMs <= 0) return null;
  const sinceMs = nowMs - Date.parse(airAhead.issuedAt);
  const sourceText = airAhead.source;
  return (
    <p class="ahead-air">
      {sinceMs < msPerMinute
        ? text('page-air-ahead.fresh', { aheadMs, sourceText })
        : text('page-air-ahead.used', { aheadMs, sourceText, sinceMs })}{' '}
      {sourceText === weatherSource &&
        rich('page-air-ahead.licence', { sourceText, licence: (inner) => <a href={weatherLicenceUrl}>{inner}</a> })}
    </p>
  );
}
