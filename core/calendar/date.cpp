#include "core/calendar/date.h"
