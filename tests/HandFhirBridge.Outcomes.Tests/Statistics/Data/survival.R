# Expected values of SurvivalTests: Rscript survival.R > survival.expected.txt (R with the package survival, Therneau).
# Data: remission weeks of 42 leukaemia patients, Freireich et al., Blood 1963;21:699-716, as tabulated in
# Kleinbaum DG, Klein M. Survival Analysis. A Self-Learning Text (Springer).
library(survival)
time <- c(6,6,6,7,10,13,16,22,23, 6,9,10,11,17,19,20,25,32,32,34,35, 1,1,2,2,3,4,4,5,5,8,8,8,8,11,11,12,12,15,17,22,23)
status <- c(rep(1,9), rep(0,12), rep(1,21))
group <- c(rep("treated",21), rep("placebo",21))
third <- ifelse(seq_along(time) %% 3 == 0, "c", group)
cat(R.version.string, "survival", as.character(packageVersion("survival")), "\n")
for (g in c("treated", "placebo")) {
  fit <- survfit(Surv(time[group == g], status[group == g]) ~ 1)
  s <- summary(fit)
  for (i in seq_along(s$time)) cat(g, s$time[i], s$n.risk[i], s$n.event[i], format(s$surv[i], digits = 12), format(s$std.err[i], digits = 12), "\n")
  t <- summary(fit)$table
  cat("median", g, t["median"], t["0.95LCL"], t["0.95UCL"], "\n")
}
for (x in list(c(3,5,7,9,11), c(3,5,7,9), c(1,2,3))) {
  t <- summary(survfit(Surv(x, rep(1, length(x))) ~ 1))$table
  cat("few", paste(x, collapse = ","), t["median"], t["0.95LCL"], t["0.95UCL"], "\n")
}
two <- survdiff(Surv(time, status) ~ group)
cat("logrank 2", format(two$chisq, digits = 12), format(1 - pchisq(two$chisq, 1), digits = 6), "\n")
three <- survdiff(Surv(time, status) ~ third)
cat("logrank 3", format(three$chisq, digits = 12), format(1 - pchisq(three$chisq, 2), digits = 6), "\n")
