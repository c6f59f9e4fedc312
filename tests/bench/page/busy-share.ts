/** How busy the page's main thread is while every pile says something new each second. */
import { openGateway } from '../scale/gateway.ts';
import { scaleProbes, tempAtC } from '../scale/scale-farm.ts';
import { openSlowPhone } from './slow-phone.ts';

const settleMs = 15_000;
const measureMs = 20_000;

export async function busyShare(url: string, mqttUrl: string, piles: number): Promise<Record<string, number>> {
  const { page, cdp, close } = await openSlowPhone();
  await page.goto(url, { waitUntil: 'commit' });
  await page.locator('.pile-line').first().waitFor();
  const gateway = await openGateway(mqttUrl, 'page-gateway');
  const cores = scaleProbes(piles * 4).filter(({ position }) => position === 'core');
  let second = 0;
  const timer = setInterval(() => {
    second += 1;
    for (const { site, probe, position } of cores)
      gateway.send(
        `piles/${site}/${probe}/reading`,
        `{"temperature":${(tempAtC(position, 168) + (second % 7) / 8).toFixed(3)}}`,
      );
  }, 1_000);
  await cdp.send('Performance.enable');
  const busyS = async () => {
    const { metrics } = await cdp.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN;
  };
  await page.waitForTimeout(settleMs);
  const [fromS, fromMs] = [await busyS(), performance.now()];
  await page.waitForTimeout(measureMs);
  const live_busy = (1_000 * ((await busyS()) - fromS)) / (performance.now() - fromMs);
  clearInterval(timer);
  await gateway.stop(10_000);
  await close();
  return { live_busy };
}
