using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Interchange.Demo;

/// <summary>One way in which the demo household could charge.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Supply">The supply at home; none: public charging alone.</param>
public sealed record DemoSetUp(string Name, Supply? Supply);
