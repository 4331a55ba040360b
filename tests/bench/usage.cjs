// Loaded before whatever is timed: tells at its end how much of the processor and of memory it took.
'use strict'
process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage()
  require('node:fs').writeSync(2, `\nUSAGE ${(userCPUTime + systemCPUTime) / 1000} ${maxRSS / 1024}\n`)
})
