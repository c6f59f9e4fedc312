/** The files that a board can be given, each as it lies in `ingest/probes/`. */
import { type Ending, fillIn, type ProbeSettings } from '../../../../ingest/probes/fill-in.ts';
import arduino from '../../../../ingest/probes/probe.ino?raw';
import micropython from '../../../../ingest/probes/probe.py?raw';
import esphome from '../../../../ingest/probes/probe.yaml?raw';
import tasmota from '../../../../ingest/probes/tasmota.txt?raw';

export const firmwares = ['micropython', 'arduino', 'esphome', 'tasmota'] as const;
export type Firmware = (typeof firmwares)[number];

const files: Readonly<Record<Firmware, { template: string; ending: Ending; name: (probe: string) => string }>> = {
  micropython: { template: micropython, ending: 'py', name: () => 'main.py' },
  // Its folder must be called the same.
  arduino: { template: arduino, ending: 'ino', name: (probe) => `${probe}.ino` },
  esphome: { template: esphome, ending: 'yaml', name: (probe) => `${probe}.yaml` },
  tasmota: { template: tasmota, ending: 'txt', name: (probe) => `${probe}.txt` },
};

export interface FilledFile {
  readonly name: string;
  readonly text: string;
}

export function filledFile(firmware: Firmware, settings: ProbeSettings): FilledFile {
  const { template, ending, name } = files[firmware];
  return { name: name(settings.probe), text: fillIn(template, ending, settings).trimEnd() };
}

/** Tasmota publishes under its own topics, which its key must reach too. */
export const foreignTopics = (firmware: Firmware, probe: string) =>
  firmware === 'tasmota' ? `tele/${probe}/#\nstat/${probe}/#` : '';
