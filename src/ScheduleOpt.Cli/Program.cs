using ScheduleOpt.Cli;

return await CommandLine.RunAsync(args, Surroundings.OfThisProcess());
