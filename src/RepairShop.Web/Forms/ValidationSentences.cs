using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding.Metadata;

namespace RepairShop.Web.Forms;

/// <summary>One house sentence for each kind of annotation, so that pages write <c>[StringLength(80)]</c> and nothing more.</summary>
internal sealed class ValidationSentences(DefaultModelBindingMessageProvider house) : IValidationMetadataProvider, IBindingMetadataProvider
{
    public static void Use(MvcOptions options)
    {
        options.ModelMetadataDetailsProviders.Add(new ValidationSentences(options.ModelBindingMessageProvider));
        options.ModelBinderProviders.Insert(0, new NumberBinderProvider());
        options.ModelBinderProviders.Insert(0, new TextBinderProvider());
        var says = options.ModelBindingMessageProvider;
        says.SetValueMustNotBeNullAccessor(_ => "This is empty: fill it in.");
        says.SetMissingBindRequiredValueAccessor(name => $"{name} is missing: fill it in.");
        says.SetMissingKeyOrValueAccessor(() => "A value is missing: fill it in.");
        says.SetAttemptedValueIsInvalidAccessor((value, name) => $"{name} can't be “{value}”: check it.");
        says.SetNonPropertyAttemptedValueIsInvalidAccessor(value => $"“{value}” can't be read: check it.");
        says.SetUnknownValueIsInvalidAccessor(name => $"{name} can't be read: check it.");
        says.SetValueIsInvalidAccessor(value => $"“{value}” can't be read: check it.");
        says.SetValueMustBeANumberAccessor(name => $"{name} must be a whole number.");
        says.SetNonPropertyValueMustBeANumberAccessor(() => "This must be a whole number.");
    }

    /// <summary>A day or a time left empty is named too; the sentence for it is asked with the value only, so each field gets its own.</summary>
    public void CreateBindingMetadata(BindingMetadataProviderContext context)
    {
        if (context.Key.MetadataKind != ModelMetadataKind.Property || context.Key.Name is not { } property)
            return;
        var name = context.Attributes.OfType<DisplayAttribute>().FirstOrDefault()?.GetName() ?? property;
        var says = new DefaultModelBindingMessageProvider(context.BindingMetadata.ModelBindingMessageProvider ?? house);
        says.SetValueMustNotBeNullAccessor(_ => $"{name} is empty: fill it in.");
        context.BindingMetadata.ModelBindingMessageProvider = says;
    }

    public void CreateValidationMetadata(ValidationMetadataProviderContext context)
    {
        foreach (var rule in context.ValidationMetadata.ValidatorMetadata.OfType<ValidationAttribute>())
        {
            // These two come with a sentence of their own, which can't be told from one a page has chosen; pages choose none for them.
            var hasOwn = rule is not (EmailAddressAttribute or UrlAttribute) && rule.ErrorMessage is not null;
            if (!hasOwn && rule.ErrorMessageResourceName is null)
                rule.ErrorMessage = Sentence(rule) ?? rule.ErrorMessage;
        }
    }

    private static string? Sentence(ValidationAttribute rule) => rule switch
    {
        RequiredAttribute => "{0} is empty: fill it in.",
        StringLengthAttribute { MinimumLength: > 0 } => "{0} must have {2} to {1} characters.",
        StringLengthAttribute => "{0} is longer than {1} characters: shorten it.",
        MaxLengthAttribute => "{0} is longer than {1} characters: shorten it.",
        RangeAttribute => "{0} must lie between {1} and {2}.",
        EmailAddressAttribute => "{0} must look like ada@example.com.",
        CompareAttribute => "{0} and {1} differ: type the same twice.",
        UrlAttribute => "{0} must look like https://www.example.com.",
        _ => null,
    };
}
