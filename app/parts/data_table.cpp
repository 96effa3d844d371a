#include "app/parts/data_table.h"
