using System.CommandLine;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>No verb: tonight and the year of an invented household.</summary>
internal static class DemoVerb
{
    /// <summary>Makes it what the program does without a verb.</summary>
    public static void AddTo(RootCommand root, Surroundings surroundings, ExampleHelp examples)
    {
        var json = Verb.Json();
        root.Add(json);
        var units = new UnitOptions(root);
        examples.Add(root, Verb.Program, $"{Verb.Program} --units mi");
        // On a thread of its own: an interruption must find somebody who listens.
        root.SetAction((parsed, cancellation) => Task.Run(() => Run(surroundings, parsed.GetValue(json), parsed, units, cancellation), cancellation));
    }

    private static int Run(Surroundings surroundings, bool asJson, ParseResult parsed, UnitOptions units, CancellationToken cancellation)
    {
        // The year needs the time; tonight is worked out and read meanwhile.
        using var progress = new ProgressLine(surroundings, asJson, cancellation);
        var year = Task.Run(() => Year(progress, cancellation), cancellation);
        var request = new RequestDraft(DemoRequests.Tonight(), DemoRequests.Source).Read(ScheduleRequestReader.Read, _ => null).Value;
        var tonight = ScheduleAnswering.Answer(request);
        if (asJson)
        {
            var (asked, answer) = year.GetAwaiter().GetResult();
            JsonOutput.Write(surroundings, ("tonight", ScheduleAnswerWriter.Write(tonight)), ("year", ComparisonAnswerWriter.Write(asked, answer)));
            return CommandLine.Answered;
        }

        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        var shown = units.Of(parsed, request.Options.Unit);
        screen.Say(DemoHousehold.Notice, "italic");
        screen.Blank();
        screen.Heading("Tonight");
        new NightScreen(screen, tonight, shown).Draw();
        screen.Show();
        var (comparison, result) = year.GetAwaiter().GetResult();
        progress.Dispose();
        surroundings.Out.WriteLine();
        screen.Heading($"The year {comparison.Case.Year}");
        new YearScreen(screen, comparison, result, shown).Draw();
        screen.Blank();
        screen.Heading("Cautions");
        screen.List(Cautions.ForSetUps(comparison.Case.SetUps));
        screen.Blank();
        screen.Say($"{DemoHousehold.Notice} Car, trips, utilities and rate plans are invented too. Weather: {comparison.Case.Weather.Source}", "italic");
        screen.Say($"Your own: '{Verb.Program} schedule --help' and '{Verb.Program} compare --help'.");
        screen.Show();
        return CommandLine.Answered;
    }

    private static (ComparisonRequest Request, DecisionResult Result) Year(ProgressLine progress, CancellationToken cancellation)
    {
        var request = new RequestDraft(DemoRequests.YearAtAGlance(), DemoRequests.Source).Read(ComparisonRequestReader.Read, _ => null).Value;
        return (request, Decision.Run(request.Decision, progress, cancellation));
    }
}
