#pragma once
#include "Arduino.h"
inline uint64_t sleepUs = 0;
inline void esp_sleep_enable_timer_wakeup(uint64_t us) { sleepUs = us; }
[[noreturn]] inline void esp_deep_sleep_start() {
  printf("{\"sleepMs\":%llu,\"boardMs\":%.0f,\"awakeMs\":%.0f}\n", (unsigned long long)(sleepUs / 1000), board.clockMs,
         board.awakeMs);
  fflush(stdout);
  exit(0);
}
