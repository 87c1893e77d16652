using System.CommandLine;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>An option that stands for a field of a request.</summary>
/// <param name="Option">The option, read as text: the request's reader judges it.</param>
/// <param name="Pointers">The fields whose absence the option could mend; those that end in <c>/*</c> stand for every field below.</param>
/// <param name="Write">Writes what was typed into a request.</param>
internal sealed record Setting(Option Option, string[] Pointers, Action<RequestDraft, ParseResult> Write);
