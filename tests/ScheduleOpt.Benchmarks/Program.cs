using ScheduleOpt.Benchmarks;

// Which question: none named runs them all.
var asked = args.Length > 0 ? args : ["solve", "households", "bill", "decision", "http"];
foreach (var question in asked)
{
    switch (question)
    {
        case "solve":
            SolveBenchmark.Run();
            break;
        case "households":
            HouseholdBenchmark.Run();
            break;
        case "bill":
            BillBenchmark.Run();
            break;
        case "decision":
            DecisionBenchmark.Run();
            break;
        case "http":
            await HttpBenchmark.RunAsync();
            break;
        default:
            Console.Error.WriteLine($"Unknown benchmark '{question}'. Known: solve, households, bill, decision, http.");
            return 1;
    }
}

return 0;
