using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Tests.Requests;

namespace ScheduleOpt.Interchange.Tests.Outputs;

/// <summary>Answers to write: planned ones, and ones with windows as a test wants them.</summary>
internal static class Answers
{
    /// <summary>Start of the plans made here, 17:30 in Chicago.</summary>
    public static readonly Instant Start = Instant.FromUtc(2026, 1, 14, 23, 30);

    /// <summary>The first departure, 07:30 in Chicago.</summary>
    public static readonly Instant Departure = Instant.FromUtc(2026, 1, 15, 13, 30);

    /// <summary>The answer to a request.</summary>
    public static ScheduleAnswer To(JsonObject request) => ScheduleAnswering.Answer(request.Good());

    /// <summary>The answer to the plain request, its windows replaced. Times are hours after the start.</summary>
    public static ScheduleAnswer With(JsonObject request, params (double From, double Until, double CurrentA)[][] windows)
    {
        var answer = To(request);
        var car = answer.Cars[0];
        var volts = car.Car.Supply.VoltsAcrossPhases;
        var steps = windows.Select(window => (IReadOnlyList<StepAnswer>)[.. window.Select(s => new StepAnswer(
            At(s.From), At(s.Until), s.CurrentA, s.CurrentA * volts / 1000 * (s.Until - s.From), 0.1 * s.CurrentA * (s.Until - s.From)))]).ToArray();
        var (named, withdrawn) = new WindowIdentity(car.Car, answer.Request.Zone.Zone).Name(steps, answer.Request.Span.Start, answer.Request.AsOf);
        return answer with { Cars = [car with { Windows = named, Withdrawn = withdrawn }] };
    }

    /// <summary>An instant, hours after the start.</summary>
    public static Instant At(double hours) => Start + Duration.FromSeconds(Math.Round(hours * 3600));
}
