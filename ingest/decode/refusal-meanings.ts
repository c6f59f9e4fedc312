/** Each reason for a refusal in plain words, with what to do about it. */
import type { RefusalReason } from '../../shared/errors.ts';
import { quantities } from '../../shared/quantity.ts';

const namesWeKnow = new Intl.ListFormat('en-GB', { type: 'disjunction' }).format(quantities);

export const refusalMeanings: Record<RefusalReason, string> = {
  'topic-shape':
    'The topic does not follow <root>/<site>/<probe>/reading. Change where the probe publishes, using small letters, digits, - and _ for site and probe.',
  'not-its-topic':
    'Somebody used a key for a topic that the key does not reach: a probe speaks for itself only. Give it the key of its own name, or a key that reaches further.',
  'too-many-filters':
    'A device asked to hear more topics than one may, or a topic filter over 1,024 bytes or 32 levels; what went beyond was refused. Let it ask for fewer, with + and #.',
  'too-many-unclaimed':
    'More probes that no pile has talk than are listened to; of new ones nothing is kept until there is room. Claim those that are yours and forget the others on the page Probes; if names were made up, revoke the key they came with. BRANHEARTH_UNCLAIMED_PROBES says how many there may be.',
  'payload-too-large': 'The message is larger than 64 KiB. Send fewer records at once.',
  'payload-empty':
    'The message holds nothing. Clearing a retained message also looks like this and does no harm; otherwise look at what the probe sends.',
  'not-json': 'The payload is not complete, valid JSON. A message cut off by the probe’s buffer often looks like this.',
  'not-senml':
    'The payload is a JSON array but not a SenML pack as RFC 8428 describes it. Compare the place named with that.',
  'missing-field':
    'Something a reading needs is not there: a value under a name we know, or a time where arrival cannot stand in for it.',
  'wrong-type':
    'A value is not of the kind it must be, such as a word where a number belongs. Numbers are written without quotation marks.',
  'unknown-quantity': `A record’s name does not end in something we keep: ${namesWeKnow}. The records beside it were kept.`,
  'unknown-unit': 'The unit is not one we can convert for this quantity. Send one of those listed in the message.',
  'out-of-range':
    'The value lies outside what any probe can mean. Look at the wiring and the probe; a disconnected one often reports -127 °C.',
  'power-on-value':
    'Exactly 85 °C out of nothing is what a one-wire chip reports before its first measurement. Let the probe wait for the conversion, and look at its power supply.',
  'bad-time':
    'The time cannot be read, or lies before the year 2000. Set the probe’s clock, or leave the time out to use the time of arrival.',
  'future-time':
    'The time is more than five minutes ahead of this machine’s clock. Set the clocks of the probe and of this machine.',
  'no-such-pointer':
    'The mapping points to a place that the message does not have. Try the mapping on the last messages and correct its pointer.',
  'conflicting-value':
    'A reading came again with the same probe, quantity and time but another value; the first one was kept. Two devices may be using one probe name.',
  'name-taken':
    'Two devices that were recognised by themselves call themselves alike, and only the first that spoke is listened to. Give one of them another name, or map its topic by hand.',
  'unknown-site':
    'Somebody foretells the air of a site that is not here. Add the site, or publish on the topic of one that is.',
  'unknown-template':
    'A device that introduced itself says by a template where its value stands, and the template does more than point there. Only a path with float, int and round is understood. Map its topic by hand.',
  'already-downsampled':
    'The reading is older than the raw readings still kept of its probe, so it may be counted there already. Take old logs in under a probe name of their own, or before thinning; and raise the age in the settings when probes stay away that long.',
};
