# The long record against R's survival package and base R, on the tables of crates/series/tests/data.
#   apt-get install r-base-core r-cran-survival
#   Rscript docs/validation/series_survival.R
# Left-censored values are turned round (M - x) where survival takes right-censored ones only.
suppressMessages(library(survival))
cat(R.version.string, " survival", as.character(packageVersion("survival")), "\n")
at <- function(file) read.csv(file.path("crates/series/tests/data", file))
d <- at("c1_arsenic_oahu.csv")
known <- 1 - d$nondetect
M <- 100
f <- survfit(Surv(M - d$value, known) ~ 1, conf.type = "plain")
s <- summary(f)
cat("product limit, arsenic: values", format(M - s$time), "\n  share below or at before the step:", format(s$surv, digits = 9), "\n")
t <- summary(f, rmean = M)$table
cat("  mean", format(M - t[["rmean"]], digits = 9), " median", format(M - t[["median"]], digits = 9), "\n")
l <- survreg(Surv(value, known, type = "left") ~ 1, data = d, dist = "lognormal")
mu <- coef(l)[[1]]; sigma <- l$scale
cat("lognormal likelihood, arsenic: mu", format(mu, digits = 9), " sigma", format(sigma, digits = 9),
    " mean", format(exp(mu + sigma^2 / 2), digits = 9), " median", format(exp(mu), digits = 9), "\n")
g <- at("c3_6mp_flipped.csv")
r <- survdiff(Surv(M - value, 1 - nondetect) ~ group, data = g)
cat("log-rank, remission: chi2", format(r$chisq, digits = 9), "\n")
r <- survdiff(Surv(M - value, 1 - nondetect) ~ group, data = g, rho = 1)
cat("Peto and Peto, remission: chi2", format(r$chisq, digits = 9), "\n")
n <- at("c9_nile.csv")
k <- suppressWarnings(cor.test(n$year, n$flow, method = "kendall", exact = FALSE, continuity = TRUE))
cat("Kendall, Nile: tau", format(k$estimate[[1]], digits = 9), " p", format(k$p.value, digits = 9), "\n")
x <- c(1, 2, 3, 4, 5, 16, 7)
k <- cor.test(1:7, x, method = "kendall", exact = TRUE)
cat("Kendall, 1 2 3 4 5 16 7: tau", format(k$estimate[[1]], digits = 9), " exact p", format(k$p.value, digits = 9), "\n")
w <- wilcox.test(c(0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46),
                 c(1.15, 0.88, 0.90, 0.74, 1.21), conf.int = TRUE)
cat("rank sum, Hollander & Wolfe: W", w$statistic, " p", format(w$p.value, digits = 9), " shift", format(w$estimate[[1]], digits = 9), "\n")
