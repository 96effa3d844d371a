# Reads lines "set days came", came being 1 or 0. Writes for each set, in order: on how many days something came; for each
# of them what survfit says (days, waiting, came, still, deviation, bounds at 80 % on the log-log scale); and for each part
# given as argument the first day on which so much has come, by the estimate and by its bounds (-1: none).
suppressMessages(library(survival))
parts <- as.numeric(commandArgs(trailingOnly = TRUE))
all <- read.table(file("stdin"), col.names = c("set", "days", "came"))
for (waits in split(all, all$set)) {
  fit <- summary(survfit(Surv(days, came) ~ 1, waits, conf.int = 0.8, conf.type = "log-log"))
  cat(length(fit$time), "\n")
  cat(sprintf("%.17g %g %g %.17g %.17g %.17g %.17g", fit$time, fit$n.risk, fit$n.event, fit$surv,
              ifelse(is.finite(fit$std.err), fit$std.err, 0), ifelse(is.na(fit$lower), 0, fit$lower),
              ifelse(is.na(fit$upper), 1, fit$upper)), sep = "\n")
  cat("\n")
  first <- function(left, p) {
    reached <- which(!is.na(left) & left <= 1 - p + 1e-12)
    if (length(reached)) fit$time[reached[1]] else -1
  }
  for (p in parts) cat(first(fit$surv, p), first(fit$lower, p), first(fit$upper, p), "\n")
}
