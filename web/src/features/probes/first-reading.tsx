/** How a probe publishes to this server, with a line to try it without one. */
import { useState } from 'preact/hooks';
import { pageWelcomeTexts } from '../../../../shared/messages/made/en/page-welcome.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { isOnlyHere, publishLine } from './publish-line.ts';

export function FirstReading() {
  const { text, rich } = usePageTexts(pageWelcomeTexts);
  const health = useInstallation((installation) => installation.health);
  const site = useInstallation((installation) => installation.sites[0]?.id ?? 'my-yard');
  const [copied, setCopied] = useState(false);
  if (!health) return null;
  const line = publishLine(health.broker.url, health.broker.root, site, 'probe-1', location.hostname);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(line);
      setCopied(true);
    } catch {
      // No clipboard on plain HTTP from another machine: the line can be selected by hand.
      setCopied(false);
    }
  };
  return (
    <>
      <p>
        {rich('page-welcome.publish', {
          topicText: `${health.broker.root}/<site>/<probe>/reading`,
          topic: (inner) => <code>{inner}</code>,
          isOnlyHere: isOnlyHere(line),
        })}
      </p>
      <div class="copy-line">
        <pre>{line}</pre>
        <button type="button" onClick={copy}>
          {text(copied ? 'page-welcome.copied' : 'page-welcome.copy')}
        </button>
      </div>
      {health.parts.broker.state !== 'ok' && (
        <p class="wrong">
          {text('page-welcome.broker', {
            stateText: health.parts.broker.state,
            detailText: health.parts.broker.detail,
          })}
        </p>
      )}
    </>
  );
}
