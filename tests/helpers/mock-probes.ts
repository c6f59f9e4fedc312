/** A page of the mock farm's probes, as the server would answer a question of the pages. */
import { type Probe, type ProbesAnswer, probesQuestionSchema } from '../../shared/contracts/probes.ts';

export function listMockProbes(probes: readonly Probe[], query: URLSearchParams): ProbesAnswer {
  const { claimed, find = '', offset = 0, limit = 500 } = probesQuestionSchema.parse(Object.fromEntries(query));
  const found = probes.filter(
    (probe) =>
      (claimed === undefined || (probe.claim !== null) === (claimed === 'yes')) &&
      `${probe.site}/${probe.probe} ${probe.claim?.pileId ?? ''}`.includes(find),
  );
  return {
    probes: found.slice(offset, offset + limit),
    total: found.length,
    offset,
    counts: { all: probes.length, unclaimed: probes.filter(({ claim }) => claim === null).length, isFull: false },
  };
}
