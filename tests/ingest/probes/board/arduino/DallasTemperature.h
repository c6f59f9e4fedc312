#pragma once
#include "OneWire.h"
#define DEVICE_DISCONNECTED_C -127
struct DallasTemperature {
  explicit DallasTemperature(OneWire *) {}
  void begin() {}
  void requestTemperatures() { delay(750); }
  float getTempCByIndex(int) { return fromEnvironment("CHIP_C", DEVICE_DISCONNECTED_C); }
};
