namespace ScheduleOpt.Interchange.Answers;

/// <summary>The version that stands in answers and reports beside the input's hash: with both a figure can be reproduced.</summary>
public static class ProgramVersion
{
    /// <summary>Major, minor and patch.</summary>
    public static string Text { get; } = typeof(ProgramVersion).Assembly.GetName().Version!.ToString(3);
}
