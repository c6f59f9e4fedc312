#pragma once
#include "Arduino.h"
enum { ESP_RST_POWERON = 1, ESP_RST_DEEPSLEEP = 8 };
inline int esp_reset_reason() { return getenv("COLD") ? ESP_RST_POWERON : ESP_RST_DEEPSLEEP; }
