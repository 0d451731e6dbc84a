# Prints what R's package psych says of a table of scores, for test_theory_test.cpp to compare with:
#   Rscript reliability.R FILE.csv | attitude | lsat6
# The last two are tables that come with R and psych; their rows are printed too.
suppressPackageStartupMessages(library(psych))

word <- commandArgs(TRUE)[1]
if (word == "lsat6") data(bock, envir = environment())
scores <- switch(word,
                 attitude = datasets::attitude,
                 lsat6 = lsat6,
                 read.csv(word, header = FALSE))
show <- function(name, values) cat(name, sprintf("%.17g", values), "\n")

if (!file.exists(word))
  for (row in seq_len(nrow(scores))) show("row", unlist(scores[row, ]))
found <- suppressWarnings(suppressMessages(
  alpha(as.data.frame(scores), check.keys = FALSE, warnings = FALSE)))
total <- rowSums(scores)
show("alpha", found$total$raw_alpha)
show("item-rest", found$item.stats$r.drop)
show("mean", mean(total))
show("standard-deviation", sd(total))
show("standard-error", sd(total) * sqrt(1 - found$total$raw_alpha))
