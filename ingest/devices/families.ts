/** The families of devices that are read without a mapping. A new one is a file and a line here. */
import { chirpstack } from './chirpstack.ts';
import { esphome } from './esphome.ts';
import type { DeviceFamily } from './family.ts';
import { homie } from './homie.ts';
import { ruuvi } from './ruuvi.ts';
import { shelly } from './shelly.ts';
import { tasmota } from './tasmota.ts';
import { theThingsStack } from './the-things-stack.ts';
import { theengs } from './theengs.ts';
import { zigbee2mqtt } from './zigbee2mqtt.ts';

/** The first that knows a message has it. */
export const deviceFamilies: readonly DeviceFamily[] = [
  tasmota,
  zigbee2mqtt,
  theThingsStack,
  chirpstack,
  ruuvi,
  theengs,
  homie,
  shelly,
  esphome,
];
