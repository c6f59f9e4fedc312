/** What is published of piles for programs by MQTT. */

import type { Config } from '../../../shared/config.ts';
import {
  type PublishingAnswer,
  publishingAnswerSchema,
  publishingSchema,
} from '../../../shared/contracts/published.ts';
import { acknowledgeTopic, eventTopic, hubDeviceTopic, stateTopic } from '../../../shared/published-topics.ts';
import type { PublishingChoice } from '../../publish/publishing-choice.ts';
import type { Api } from '../api.ts';

interface PublishingParts {
  readonly config: Pick<Config, 'MQTT_ROOT'>;
  readonly publishing: PublishingChoice;
}

export function registerPublishing(api: Api, { config, publishing }: PublishingParts): void {
  const root = config.MQTT_ROOT;
  const answer = (): PublishingAnswer => ({
    ...(publishing.now() ?? { states: false }),
    topics: {
      states: stateTopic(root, '+', '+'),
      events: eventTopic(root, '+', '+'),
      hub: hubDeviceTopic(root, '<pile>'),
      acknowledge: acknowledgeTopic(root, '+', '+'),
    },
  });

  api.get(
    '/api/publishing',
    { config: { access: 'owner' }, schema: { response: { 200: publishingAnswerSchema } } },
    async () => answer(),
  );

  api.put(
    '/api/publishing',
    {
      config: { access: 'owner', does: 'audit.did.chose-what-is-published' },
      schema: { body: publishingSchema, response: { 200: publishingAnswerSchema } },
    },
    async (request) => {
      await publishing.choose(request.body);
      return answer();
    },
  );
}
