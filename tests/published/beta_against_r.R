# Reads lines "a b p q", where q is said to be the quantile of Beta(a, b) at p. Writes for each: R's quantile, and R's
# probabilities just below and just above q (by the share given as argument).
share <- as.numeric(commandArgs(trailingOnly = TRUE)[1])
rows <- read.table(file("stdin"), col.names = c("a", "b", "p", "q"))
# R says itself where its own quantile is not good to the last digits; that is what the probabilities are for.
quantile <- suppressWarnings(qbeta(rows$p, rows$a, rows$b))
below <- pbeta(rows$q * (1 - share), rows$a, rows$b)
above <- pbeta(pmin(rows$q * (1 + share), 1), rows$a, rows$b)
cat(sprintf("%.17g %.17g %.17g", quantile, below, above), sep = "\n")
