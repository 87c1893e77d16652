using System.CommandLine;
using System.Text.Json.Nodes;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.Interchange.Reports;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>Set-ups, rate plans and behaviours over a year.</summary>
internal static class CompareVerb
{
    private const string Name = "compare";

    /// <summary>Makes the verb.</summary>
    public static Command Make(Surroundings surroundings, ExampleHelp examples)
    {
        var command = new Command(Name, "Which set-up, rate plan and behaviour cost least over a year, the whole house with the car.");
        var (request, demo, json) = (Verb.Request(), Verb.Demo(), Verb.Json());
        var plans = new Option<string[]>("--rate-plan")
        {
            Description = "Compare these rate plans instead: an id or a file; may be given several times.",
            HelpName = "PLAN",
        };
        command.Add(request);
        command.Add(demo);
        command.Add(plans);
        var house = new HouseSettings(surroundings.In);
        foreach (var setting in house.All)
        {
            command.Add(setting.Option);
        }

        var report = new Option<string?>("--report") { Description = "Write the adviser's report as one HTML file that opens offline.", HelpName = "FILE" };
        var csv = new Option<string?>("--csv") { Description = "Write a table with a line for each combination.", HelpName = "FILE" };
        command.Add(report);
        command.Add(csv);
        var units = new UnitOptions(command);
        command.Add(json);
        examples.Add(command, $"{Verb.Program} {Name} --demo --rate-plan {DemoRequests.RatePlanId} --units mi");
        // On a thread of its own: an interruption must find somebody who listens.
        command.SetAction((parsed, cancellation) => Task.Run(() => Run(parsed, cancellation), cancellation));
        return command;

        int Run(ParseResult parsed, CancellationToken cancellation)
        {
            var draft = Verb.Begin(parsed.GetValue(request), parsed.GetValue(demo), DemoRequests.Year, null, surroundings);
            if (!draft.IsRead)
            {
                return Complaints.Write(surroundings.Error, draft.Faults, Name);
            }

            Replace(draft.Value, parsed.GetValue(plans) ?? [], surroundings);
            house.Apply(parsed, draft.Value);
            Complaints.Note(surroundings.Error, draft.Value.Notes);
            var reading = draft.Value.Read(ComparisonRequestReader.Read, house.OptionFor);
            return reading.IsRead
                ? Answer(surroundings, reading.Value, units.Of(parsed, reading.Value.Options.Unit), parsed.GetValue(json), parsed.GetValue(demo), (parsed.GetValue(report), parsed.GetValue(csv)), cancellation)
                : Complaints.Write(surroundings.Error, reading.Faults, Name);
        }
    }

    private static void Replace(RequestDraft draft, string[] plans, Surroundings surroundings)
    {
        var found = new JsonArray();
        foreach (var typed in plans)
        {
            var plan = RatePlanText.Find(typed, "--rate-plan", surroundings.In);
            draft.Faults.AddRange(plan.Faults.Select(f => RatePlanText.InFile(f, typed)));
            if (plan.IsRead)
            {
                found.Add(plan.Value.Json.DeepClone());
            }
        }

        if (plans.Length > 0)
        {
            draft.Set("#/ratePlans", found, "--rate-plan", string.Join(" ", plans));
        }
    }

    private static Fault? Write((string? Report, string? Csv) files, ComparisonRequest request, ShownUnits units, DecisionResult result) =>
        (files.Report is { } report ? OutputFile.Write(report, "--report", ComparisonReport.Write(request, result, units)) : null)
        ?? (files.Csv is { } csv ? OutputFile.Write(csv, "--csv", ComparisonCsv.Write(request, result)) : null);

    private static int Answer(
        Surroundings surroundings, ComparisonRequest request, Units units, bool asJson, bool isDemo, (string? Report, string? Csv) files, CancellationToken cancellation)
    {
        using var progress = new ProgressLine(surroundings, asJson, cancellation);
        var result = Decision.Run(request.Decision, progress, cancellation);
        progress.Dispose();
        cancellation.ThrowIfCancellationRequested();
        if (Write(files, request, units.Shown, result) is { } fault)
        {
            return Complaints.Write(surroundings.Error, [fault], Name);
        }

        if (asJson)
        {
            JsonOutput.Write(surroundings, ComparisonAnswerWriter.Write(request, result));
            return CommandLine.Answered;
        }

        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        screen.Heading($"The year {request.Case.Year}");
        new YearScreen(screen, request, result, units).Draw();
        screen.Blank();
        screen.Heading("Cautions");
        screen.List(Cautions.ForSetUps(request.Case.SetUps));
        if (isDemo)
        {
            screen.Say(DemoHousehold.Notice, "italic");
        }

        screen.Show();
        return CommandLine.Answered;
    }
}
