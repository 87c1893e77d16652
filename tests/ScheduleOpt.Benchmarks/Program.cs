using ScheduleOpt.Benchmarks;

// Which question: none named runs them all.
var asked = args.Length > 0 ? args : ["solve"];
foreach (var question in asked)
{
    switch (question)
    {
        case "solve":
            SolveBenchmark.Run();
            break;
        default:
            Console.Error.WriteLine($"Unknown benchmark '{question}'. Known: solve.");
            return 1;
    }
}

return 0;
