namespace ScheduleOpt.Cli.Inputs;

/// <summary>The options of <c>compare</c> that stand for the house load and for what the household chose.</summary>
internal sealed class HouseSettings : HouseholdSettings
{
    public HouseSettings(TextReader standardInput)
        : base(standardInput)
    {
        AddFile(
            "--house-meter-file",
            "What the house uses, from its meter: a year of Green Button XML or of a utility's table (CSV).",
            "#/houseLoad",
            MeterFileText.HouseLoad);
        AddHousehold();
    }
}
