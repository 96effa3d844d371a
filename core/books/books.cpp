#include "core/books/books.h"
