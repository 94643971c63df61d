# file: public-fits.json
# The points themselves, as R's data sets have them.
suppressMessages(library(jsonlite))
values <- list()
say <- function(set, x, y) values[[length(values) + 1]] <<- list(path = unbox(paste0("sets/", set)), value = list(x = x, y = y), tolerance = unbox(0))
treated <- Puromycin$state == "treated"
say(0, Puromycin$conc[treated], Puromycin$rate[treated])
say(1, Puromycin$conc[!treated], Puromycin$rate[!treated])
say(2, BOD$Time, BOD$demand)
cat(toJSON(list(with = unbox(R.version.string), given = list(), values = values), digits = NA))
