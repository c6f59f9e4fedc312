/** How long it was how hot, and what composting rules ask beside that. */
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { formatTemp, plainNumber } from '../../ui/format/temperature.ts';
import { positionNames } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { renderPhase } from '../pile/phase-words.ts';
import { instantWords, renderRules, type SheetPart } from './sheet-part.ts';
import './records.css';

function timesTurned(turns: number): string {
  if (turns === 0) return 'no turn was written down';
  return turns === 1 ? 'turned once' : turns === 2 ? 'turned twice' : `turned ${turns} times`;
}

export function TimeTemperature({ sheet, reader }: SheetPart) {
  const { timeTemperature: log } = sheet;
  const { unit } = usePrefs();
  const say = useSay(renderRules);
  const hours = (h: number) => `${plainNumber(h, 1)} h`;
  return (
    <Part id="time-temperature" title="Time and temperature">
      <p>
        {log.position ? `Counted at the ${positionNames[log.position]}.` : 'Nothing was measured.'} Measured for{' '}
        {hours(log.measuredH)}, not measured for {hours(log.unmeasuredH)}; {timesTurned(log.turns)}.
        {log.highestC !== null &&
          ` Highest ${formatTemp(log.highestC, unit)}${log.highestAt ? `, ${instantWords(log.highestAt, reader)}` : ''}.`}
      </p>
      <PlacesHeat sheet={sheet} reader={reader} />
      <table class="record-hours">
        <caption>Hours at or above</caption>
        <thead>
          <tr>
            <th scope="col">Temperature</th>
            <th scope="col">In all</th>
            <th scope="col">Longest at a stretch</th>
          </tr>
        </thead>
        <tbody>
          {log.hoursAtLeast.map((row) => (
            <tr key={row.tempC}>
              <th scope="row">{formatTemp(row.tempC, unit, 0)}</th>
              <td>{hours(row.totalH)}</td>
              <td>{hours(row.longestRunH)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {log.rules.length > 0 && (
        <>
          <h3 class="sub-head">Beside composting rules, as facts</h3>
          <dl class="rules">
            {log.rules.map(({ standing, messages: { rule, source, asks, measured } }) => (
              <div key={rule.code}>
                <dt>{say(rule)}</dt>
                <dd>
                  <p>
                    Asks: {say(asks)}
                    <br />
                    Measured: <b>{say(measured)}</b>
                  </p>
                  <span class="origin">
                    {say(source)}
                    {standing === 'from memory' && '; from memory, look it up before relying on it'}
                  </span>
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </Part>
  );
}

function PlacesHeat({ sheet: { pastHeat }, reader }: SheetPart) {
  const { unit } = usePrefs();
  const { actC, lossC, places, messages } = pastHeat;
  const say = useSay(renderPhase);
  if (places.length === 0) return null;
  return (
    <>
      {messages.says && <p class="sentence">{say(messages.says)}</p>}
      <Scrollable label="How hot each place was" class="record-scroll">
        <table class="record-hours">
          <caption>
            How hot each place was: {formatTemp(actC, unit, 0)} is where to act, {formatTemp(lossC, unit, 0)} where the
            culture is being lost
          </caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">Hottest</th>
              <th scope="col">{formatTemp(actC, unit, 0)} or more</th>
              <th scope="col">{formatTemp(lossC, unit, 0)} or more</th>
            </tr>
          </thead>
          <tbody>
            {places.map(({ position, peakC, peakAt, actH, lossH }) => (
              <tr key={position}>
                <th scope="row">{positionNames[position]}</th>
                <td>
                  {formatTemp(peakC, unit)}, {instantWords(peakAt, reader)}
                </td>
                <td>{plainNumber(actH, 1)} h</td>
                <td>{plainNumber(lossH, 1)} h</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrollable>
    </>
  );
}
