#include "core/books/rates.h"
