#pragma once
#include "Arduino.h"
enum { SNTP_SYNC_STATUS_RESET, SNTP_SYNC_STATUS_COMPLETED };
inline int sntp_get_sync_status() { return isSynchronised ? SNTP_SYNC_STATUS_COMPLETED : SNTP_SYNC_STATUS_RESET; }
