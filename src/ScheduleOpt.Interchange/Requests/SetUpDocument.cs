using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A set-up as a request gives it, before its currency and what is there today are known.</summary>
/// <param name="SetUp">The set-up.</param>
/// <param name="ReadyMade">The ready-made one, or the household's own in the same form.</param>
/// <param name="Inputs">The household's own figures.</param>
/// <param name="Incentives">What is granted for it.</param>
internal sealed record SetUpDocument(SetUp SetUp, ReadyMadeSetUp ReadyMade, SetUpInputs Inputs, IReadOnlyList<Incentive> Incentives)
{
    /// <summary>The set-up with its money.</summary>
    /// <param name="currency">The currency of the rate plans.</param>
    /// <param name="isThere">Whether it stands there today.</param>
    public OfferedSetUp Offered(string currency, bool isThere) => new(
        SetUp,
        (isThere ? OfferedSetUp.AlreadyThere(ReadyMade) : ReadyMade).Choose(Inputs with { Currency = currency }),
        Incentives);
}
