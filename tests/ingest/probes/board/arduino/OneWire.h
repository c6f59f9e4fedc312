#pragma once
#include "Arduino.h"
struct OneWire {
  explicit OneWire(int) {}
};
